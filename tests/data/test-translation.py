"""Every word for the maker reaches the translators, and what they send back is sound.

Usage: test-translation.py SOURCE

The checkers are msgfmt and xgettext.
"""

import pathlib
import subprocess
import sys
import tempfile

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent))
import tap  # noqa: E402

SOURCE = pathlib.Path(sys.argv[1])
PO = SOURCE / 'po'


def words(path):
    return [line for line in path.read_text(encoding='utf-8').split('\n') if line and not line.startswith('#')]


def must(*command):
    done = subprocess.run([str(word) for word in command], cwd=SOURCE, stdin=subprocess.DEVNULL,
                          stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    assert done.returncode == 0, f"{' '.join(map(str, command))}\n{done.stderr}"
    return done.stdout, done.stderr


def check_potfiles():
    wanted = must(SOURCE / 'build-aux/update-potfiles', '--print')[0].splitlines()
    listed = words(PO / 'POTFILES')
    lost = sorted(set(wanted) - set(listed))
    stray = sorted(set(listed) - set(wanted))
    assert wanted and not lost and not stray and len(listed) == len(set(listed)), (
        f'not listed: {lost}\nlisted for nothing: {stray}\nRun build-aux/update-potfiles.')


def check_extraction():
    """Keywords as in meson's preset "glib". The texts as their own translation must pass too."""
    with tempfile.TemporaryDirectory() as folder:
        template = pathlib.Path(folder, 'oddment.pot')
        english = pathlib.Path(folder, 'en.po')
        complaints = must(
            'xgettext', '--from-code=UTF-8', '--add-comments', '--files-from=po/POTFILES', '--directory=.',
            '--keyword=_', '--keyword=N_', '--keyword=C_:1c,2', '--keyword=NC_:1c,2', '--keyword=g_dcgettext:2',
            '--keyword=g_dngettext:2,3', '--keyword=g_dpgettext2:2c,3',
            f'--output={template}')[1]
        assert 'msgid "Sew new cloth out of scraps"' in template.read_text(encoding='utf-8')
        must('msginit', '--no-translator', '--locale=en', f'--input={template}', f'--output-file={english}')
        must('msgfmt', '--check', '--output-file=/dev/null', english)
    assert not complaints, complaints


def check_languages():
    languages = {word for line in words(PO / 'LINGUAS') for word in line.split()}
    present = {path.stem for path in PO.glob('*.po')}
    assert languages == present, f'LINGUAS has {sorted(languages)}, the folder {sorted(present)}'


def check_messages():
    for path in sorted(PO.glob('*.po')):
        must('msgfmt', '--check', '--output-file=/dev/null', path)


if __name__ == '__main__':
    sys.exit(tap.run([
        ('POTFILES lists every file with text, and no other', check_potfiles),
        ('the text can be extracted without a complaint', check_extraction),
        ('LINGUAS and the .po files agree', check_languages),
        ('every translation passes msgfmt --check', check_messages),
    ]))
