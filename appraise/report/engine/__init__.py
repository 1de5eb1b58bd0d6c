"""The report engine: a house document, section templates and a view become one Word file.

    views      the small frozen objects a view hands to the engine: pictures, charts, emphasised text, page edges
    find       where templates come from
    guard      what a template may say, decided on its syntax tree
    environment the strict, closed jinja environment
    section    one section template: read, checked, compiled
    house      the house document: styles, page, headers, footers
    helpers    what a template may call: picture, chart, footnote, contents ...
    charts     native charts as text
    package    the zip that is the Word file
    render     puts them together
    inspect    the structural check of a finished file
    lint       the check of an appraiser's own template
    pdf        the same report as PDF, through LibreOffice

Left out: what the report says. Sentences, figures and their order come in finished.
"""
