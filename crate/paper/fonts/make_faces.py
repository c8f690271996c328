# Makes the two faces of the sheets from the upright static faces of Barlow (SIL Open Font License 1.1):
# the letters of English and Spanish and the signs that sheets write, with figures of one width.
import sys
from fontTools import subset
from fontTools.ttLib import TTFont

LETTERS = [*range(0x20, 0x7F), *range(0xA0, 0x180), 0x2013, 0x2014, 0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2026,
           0x2032, 0x2033, 0x2044, *range(0x215B, 0x215F), 0x221A, 0x2212, 0x2248, 0x2264, 0x2265]
FIGURES = 'zero one two three four five six seven eight nine'.split()

source, target = sys.argv[1:]
font = TTFont(source)
for table in font['cmap'].tables:
    for code, name in zip(range(0x30, 0x3A), FIGURES):
        if code in table.cmap:
            table.cmap[code] = f'{name}.tf'
options = subset.Options(layout_features=[], hinting=False, name_IDs=['*'], notdef_outline=True)
options.drop_tables += ['GPOS', 'GSUB', 'GDEF', 'DSIG', 'STAT', 'gasp']
cutter = subset.Subsetter(options)
cutter.populate(unicodes=LETTERS)
cutter.subset(font)
font['head'].modified = font['head'].created
font.recalcTimestamp = False
font.save(target)
