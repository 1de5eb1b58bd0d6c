"""The draft's mark across every page: a text shape that stands behind the text, anchored in each header."""

from xml.sax.saxutils import quoteattr

from appraise.report.engine.environment import clean


def watermark(word: str, number: int) -> str:
    """Return a paragraph that carries the mark; `number` tells the headers' shapes apart."""
    text = quoteattr(" ".join(clean(word).split()).replace("{", "("))
    width = min(max(len(word), 4) * 62, 520)
    return (
        '<w:p><w:pPr><w:spacing w:before="0" w:after="0" w:line="20" w:lineRule="exact"/></w:pPr>'
        "<w:r><w:rPr><w:noProof/></w:rPr><w:pict>"
        f'<v:shapetype id="_x0000_t136" coordsize="21600,21600" o:spt="136" adj="10800" '
        'path="m@7,l@8,m@5,21600l@6,21600e">'
        '<v:formulas><v:f eqn="sum #0 0 10800"/><v:f eqn="prod #0 2 1"/><v:f eqn="sum 21600 0 @1"/>'
        '<v:f eqn="sum 0 0 @2"/><v:f eqn="sum 21600 0 @3"/><v:f eqn="if @0 @3 0"/><v:f eqn="if @0 21600 @1"/>'
        '<v:f eqn="if @0 0 @2"/><v:f eqn="if @0 @4 21600"/><v:f eqn="mid @5 @6"/><v:f eqn="mid @8 @5"/>'
        '<v:f eqn="mid @7 @8"/><v:f eqn="mid @6 @7"/><v:f eqn="sum @6 0 @5"/></v:formulas>'
        '<v:path textpathok="t" o:connecttype="custom" '
        'o:connectlocs="@9,0;@10,10800;@11,21600;@12,10800" o:connectangles="270,180,90,0"/>'
        '<v:textpath on="t" fitshape="t"/><v:handles><v:h position="#0,bottomRight" xrange="6629,14971"/>'
        '</v:handles><o:lock v:ext="edit" text="t" shapetype="t"/></v:shapetype>'
        f'<v:shape id="DraftMark{number}" o:spid="_x0000_s{2048 + number}" type="#_x0000_t136" alt={text} '
        f'style="position:absolute;margin-left:0;margin-top:0;width:{width}pt;height:120pt;rotation:315;'
        "z-index:-251658752;mso-position-horizontal:center;mso-position-horizontal-relative:margin;"
        'mso-position-vertical:center;mso-position-vertical-relative:margin" o:allowincell="f" '
        'fillcolor="#d0d3d9" stroked="f"><v:fill opacity=".5"/>'
        f'<v:textpath style="font-family:&quot;Arial&quot;;font-size:1pt" string={text}/>'
        "</v:shape></w:pict></w:r></w:p>"
    )
