"""The rooms of src/ may know one another in one direction only.

Usage: test-arrows.py SRC

Reads every #include of every .c and .h below SRC. DEVELOPERS.md, "Rooms and
arrows", says what is allowed and why; this is the same table.
"""

import pathlib
import re
import sys
import tempfile

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent))
import tap  # noqa: E402

VALUES = {'geometry', 'cloth'}
CRAFT = VALUES | {'piecing', 'sewing', 'cutting', 'costing', 'capture'}
BELOW_WINDOW = CRAFT | {'store', 'drawing', 'paper'}

MAY_KNOW = {
    'geometry': set(),
    'cloth': {'geometry'},
    'piecing': VALUES,
    'sewing': VALUES,
    'cutting': VALUES,
    'costing': VALUES,
    'capture': VALUES,
    'store': CRAFT,
    'drawing': CRAFT,
    'paper': CRAFT | {'store', 'drawing'},
    'ui': BELOW_WINDOW,
    'commands': BELOW_WINDOW,
}
ENTRANCE = 'main.c'
MAY_SHOW = {'ui', ENTRANCE}

INCLUDE = re.compile(r'^[ \t]*#[ \t]*include[ \t]*(?:"([^"]+)"|<([^>]+)>)', re.MULTILINE)
TOOLKIT = re.compile(r'^(gtk|gdk|gsk)/|^(gtk|gdk|gsk)[^/-]*\.h$|^adw|^libadwaita')
GENERATED = re.compile(r'^(config|paths|[a-z-]+-resources)\.h$')


def complaints(src):
    """One sentence for each include that DEVELOPERS.md forbids."""
    found = []
    for path in sorted([*src.rglob('*.c'), *src.rglob('*.h')]):
        place = path.relative_to(src)
        room = place.parts[0]
        if room not in MAY_KNOW and str(place) != ENTRANCE:
            found.append(f'{place} is in no room')
            continue
        for ours, theirs in INCLUDE.findall(path.read_text(encoding='utf-8')):
            name = ours or theirs
            if TOOLKIT.match(name) and room not in MAY_SHOW:
                found.append(f'{place} includes {name}, but only ui may know the toolkit')
            elif ours and not GENERATED.match(ours):
                found.extend(wrong_way(place, room, ours))
    return found


def wrong_way(place, room, include):
    other, slash, _ = include.partition('/')
    if not slash or (other not in MAY_KNOW and not TOOLKIT.match(include)):
        return [f'{place} includes "{include}", which is not of the form "room/file.h"']
    if room == ENTRANCE or other == room or TOOLKIT.match(include) or other in MAY_KNOW[room]:
        return []
    return [f'{place} includes "{include}", but {room} may not know {other}']


def check_source(src):
    assert any(src.rglob('*.c')), f'no source below {src}'
    found = complaints(src)
    assert not found, '\n'.join(found)


def planted(place, line):
    """What is said about a tree with this one line in it."""
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder, place)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(f'#include "config.h"\n\n{line}\n\nint x;\n', encoding='utf-8')
        return complaints(pathlib.Path(folder))


def check_planted_wrong():
    for place, line in [
            ('geometry/a.c', '#include "cloth/panel.h"'),
            ('cloth/a.h', '#include "piecing/snap.h"'),
            ('piecing/a.c', '#include "sewing/plan.h"'),
            ('sewing/a.c', '#include "piecing/snap.h"'),
            ('cutting/a.c', '# include "store/job-file.h"'),
            ('costing/a.c', '#include "cutting/lay.h"'),
            ('capture/a.c', '#include "drawing/painter.h"'),
            ('store/a.c', '#include "drawing/painter.h"'),
            ('drawing/a.c', '#include "store/job-file.h"'),
            ('drawing/a.c', '#include "paper/ticket.h"'),
            ('paper/a.c', '#include "ui/window.h"'),
            ('ui/a.c', '#include "commands/report.h"'),
            ('commands/a.c', '#include "ui/window.h"'),
            ('cloth/deep/a.c', '#include "ui/window.h"'),
            ('drawing/a.c', '#include <gtk/gtk.h>'),
            ('paper/a.c', '#include <gdk/gdk.h>'),
            ('commands/a.c', '#include <adwaita.h>'),
            ('store/a.h', '#include <gtk/gtkunixprint.h>'),
            ('cloth/a.c', '#include "panel.h"'),
            ('cloth/a.c', '#include "../ui/window.h"'),
            ('attic/a.c', '#include <glib.h>'),
    ]:
        assert len(planted(place, line)) == 1, f'{line} in {place} went unnoticed'


def check_planted_right():
    for place, line in [
            ('cloth/a.c', '#include "geometry/convex.h"'),
            ('cloth/a.c', '#include "cloth/panel.h"'),
            ('drawing/a.c', '#include <gdk-pixbuf/gdk-pixbuf.h>'),
            ('store/a.c', '#include "sewing/plan.h"'),
            ('paper/a.c', '#include "drawing/painter.h"'),
            ('commands/a.c', '#include "paper/ticket.h"'),
            ('ui/a.c', '#include <gtk/gtk.h>'),
            ('ui/a.h', '#include <adwaita.h>'),
            ('ui/a.c', '#include "oddment-ui-resources.h"'),
            ('main.c', '#include "ui/application.h"'),
            ('main.c', '#include "commands/commands.h"'),
    ]:
        said = planted(place, line)
        assert not said, '\n'.join(said)


def main():
    src = pathlib.Path(sys.argv[1])
    return tap.run([
        ('every include of src follows the arrows', lambda: check_source(src)),
        ('a planted include against the arrows is found', check_planted_wrong),
        ('an include along the arrows is let through', check_planted_right),
    ])


if __name__ == '__main__':
    sys.exit(main())
