# Shared by build-aux/start and build-aux/test, which source it from the top of
# the source tree. Bash only.

say () { printf '%s\n' "$*" >&2; }

is_debian ()
{
  [ -r /etc/os-release ] && command -v apt-get >/dev/null || return 1
  ( . /etc/os-release; case " ${ID:-} ${ID_LIKE:-} " in *" debian "*) exit 0 ;; esac; exit 1 )
}

# packages SECTION...: "package proof" lines of these sections
packages ()
{
  local wanted=" $* " section= line
  while read -r line; do
    case $line in
      ''|'#'*) ;;
      '['*']') section=${line#[}; section=${section%]} ;;
      *) case $wanted in *" $section "*) printf '%s\n' "$line" ;; esac ;;
    esac
  done < build-aux/packages
}

# The system's python, not one that stands before it in PATH: Debian's modules
# are only there.
system_python ()
{
  if [ -x /usr/bin/python3 ]; then echo /usr/bin/python3; else echo python3; fi
}

is_proven ()
{
  case $1 in
    pkg:*'>='*) local it=${1#pkg:}; pkg-config --atleast-version="${it#*>=}" "${it%%>=*}" 2>/dev/null ;;
    pkg:*) pkg-config --exists "${1#pkg:}" 2>/dev/null ;;
    prog:*) command -v "${1#prog:}" >/dev/null ;;
    py:*) "$(system_python)" -c "import ${1#py:}" 2>/dev/null ;;
    *) return 0 ;;
  esac
}

install_on_debian ()
{
  local missing=() package proof sudo=()
  while read -r package proof; do
    case $(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null) in
      installed) ;;
      *) missing+=("$package") ;;
    esac
  done < <(packages "$@")
  [ ${#missing[@]} -gt 0 ] || return 0

  if [ "$(id -u)" -ne 0 ]; then
    if command -v sudo >/dev/null; then
      sudo=(sudo)
      [ -t 0 ] || sudo=(sudo -n)
    else
      say "These packages are missing, and there is neither root nor sudo to install them. As root, run:"
      say "  apt-get install ${missing[*]}"
      return 1
    fi
  fi
  say "Installing ${#missing[@]} packages: ${missing[*]}"
  "${sudo[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q update >&2 &&
  "${sudo[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q -y --no-install-recommends install "${missing[@]}" >&2 || {
    say "apt-get could not install the packages. Mend what it says above, then run this again."
    return 1
  }
}

look_elsewhere ()
{
  local missing=() package proof
  say "This is not Debian, so nothing is installed for you. Oddment needs:"
  while read -r package proof; do
    [ "$proof" != - ] || continue
    if is_proven "$proof"; then
      say "  there    ${proof#*:}"
    else
      say "  MISSING  ${proof#*:}   (Debian calls the package $package)"
      missing+=("${proof#*:}")
    fi
  done < <(packages "$@")
  [ ${#missing[@]} -eq 0 ] || {
    say "Install what is missing with your own package manager, then run this again."
    return 1
  }
}

# provide SECTION...: see to it that all packages of these sections are there
provide ()
{
  if is_debian; then install_on_debian "$@"; else look_elsewhere "$@"; fi
}

# set_up DIRECTORY OPTION...: a build folder with these options, new or not
set_up ()
{
  local dir=$1
  shift
  if [ ! -f "$dir/build.ninja" ]; then
    meson setup "$dir" "$@" >&2
  elif [ $# -gt 0 ]; then
    meson configure "$dir" "$@" >&2
  fi
}
