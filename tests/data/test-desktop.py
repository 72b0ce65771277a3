"""What Oddment tells the desktop about itself, put to the desktop's own checkers.

Usage: test-desktop.py SOURCE BUILD APP_ID VERSION

The checkers are desktop-file-validate, appstreamcli, glib-compile-schemas,
update-mime-database, xmllint and rsvg-convert.
"""

import configparser
import pathlib
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent))
import tap  # noqa: E402

SOURCE, BUILD = map(pathlib.Path, sys.argv[1:3])
APP_ID, VERSION = sys.argv[3:5]
MIME = '{http://www.freedesktop.org/standards/shared-mime-info}'


def run(*command):
    return subprocess.run([str(word) for word in command], stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                          stderr=subprocess.STDOUT, text=True, errors='replace')


def must(*command):
    """Standard output of a checker that has to be content."""
    done = run(*command)
    assert done.returncode == 0, f"{' '.join(map(str, command))}\n{done.stdout}"
    return done.stdout


def built(ending):
    return BUILD / 'data' / (APP_ID + ending)


def desktop_entry():
    entry = configparser.ConfigParser(interpolation=None)
    entry.read(built('.desktop'), encoding='utf-8')
    return entry['Desktop Entry']


def check_desktop_file():
    said = must('desktop-file-validate', built('.desktop'))
    assert not said, said


def check_metainfo():
    """AppStream 1.0 wants a home page, and we have none yet; nothing else may be wanting."""
    done = run('appstreamcli', 'validate', '--no-net', built('.metainfo.xml'))
    issues = [line for line in done.stdout.splitlines() if line.startswith(('E:', 'W:'))]
    grave = [line for line in issues if 'url-homepage-missing' not in line]
    assert not grave and (done.returncode == 0 or issues), done.stdout


def check_schema():
    must('glib-compile-schemas', '--strict', '--dry-run', SOURCE / 'data')


def check_mime():
    with tempfile.TemporaryDirectory() as folder:
        packages = pathlib.Path(folder, 'packages')
        packages.mkdir()
        (packages / 'oddment.xml').write_bytes(built('.xml').read_bytes())
        must('update-mime-database', folder)
        globs = pathlib.Path(folder, 'globs2').read_text(encoding='utf-8')
    assert ':application/x-oddment+zip:*.oddment' in globs, globs


def check_one_story():
    """The same names and the same type in every file."""
    entry = desktop_entry()
    metainfo = ElementTree.parse(built('.metainfo.xml')).getroot()
    mime = ElementTree.parse(built('.xml')).getroot().find(MIME + 'mime-type').get('type')
    for what, found, wanted in [
            ('Icon', entry['Icon'], APP_ID),
            ('MimeType', entry['MimeType'], mime + ';'),
            ('Name', entry['Name'], metainfo.findtext('name')),
            ('component id', metainfo.findtext('id'), APP_ID),
            ('launchable', metainfo.findtext('launchable'), APP_ID + '.desktop'),
            ('mediatype', metainfo.findtext('provides/mediatype'), mime),
            ('newest release', metainfo.find('releases/release').get('version'), VERSION),
            ('binary', metainfo.findtext('provides/binary'), entry['Exec'].split()[0]),
    ]:
        assert found == wanted, f'{what} is {found}, not {wanted}'


def check_well_formed():
    folders = [SOURCE / name for name in ('data', 'src', 'help', 'tests')]
    files = [path for folder in folders for pattern in ('*.xml', '*.ui', '*.svg', '*.page', '*.xml.in')
             for path in sorted(folder.rglob(pattern)) if 'broken' not in path.parts]
    assert files, 'no XML found'
    must('xmllint', '--nonet', '--noout', *files)


def ink(svg, size):
    """Share of the picture that is not empty, at this size."""
    with tempfile.TemporaryDirectory() as folder:
        png = pathlib.Path(folder, 'icon.png')
        must('rsvg-convert', '--width', size, '--height', size, '--output', png, svg)
        return float(must('convert', png, '-alpha', 'extract', '-format', '%[fx:mean]', 'info:'))


def check_icons():
    icons = SOURCE / 'data/icons/hicolor'
    for svg, sizes in [(icons / f'scalable/apps/{APP_ID}.svg', (32, 128)),
                       (icons / f'symbolic/apps/{APP_ID}-symbolic.svg', (16, 32))]:
        for size in sizes:
            share = ink(svg, size)
            assert 0.3 < share < 0.95, f'{svg.name} at {size} pixels is {share:.0%} filled'


def check_symbolic():
    """GTK recolours fills only, so a stroke or a gradient would stay grey on dark."""
    svg = (SOURCE / f'data/icons/hicolor/symbolic/apps/{APP_ID}-symbolic.svg').read_text(encoding='utf-8')
    for word in ('stroke', 'gradient', 'style', 'url('):
        assert word not in svg.lower(), f'the symbolic icon has {word}'


if __name__ == '__main__':
    sys.exit(tap.run([
        ('the desktop file is valid', check_desktop_file),
        ('the metainfo is valid', check_metainfo),
        ('the settings schema is valid', check_schema),
        ('a .oddment file gets its type', check_mime),
        ('desktop file, metainfo and type agree', check_one_story),
        ('every XML file is well formed', check_well_formed),
        ('the icons show something at every size', check_icons),
        ('the symbolic icon can be recoloured', check_symbolic),
    ]))
