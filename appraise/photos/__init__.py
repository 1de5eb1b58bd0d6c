"""The photographs' files: what is known of them, and copies of them that can be printed.

    files     where a file named in the workbook lies, and facts about all of them
    prepare   turned, brought to sRGB, on white, made smaller, without any data about place, time or camera
    faults    what can be wrong with a file, as findings

Left out: what a photograph must show (package `checks`).
"""
