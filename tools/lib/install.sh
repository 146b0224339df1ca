# To be sourced.
# build_shown FOLDER TARGET...: builds, and shows how far it is: in one line that changes where somebody watches, else
# a line for each tenth. What fails is shown whole.
build_shown() {
  local folder=$1
  shift
  if [[ -t 1 ]]; then
    NINJA_STATUS="[%p, %e s] " cmake --build "$folder" --target "$@"
    return
  fi
  cmake --build "$folder" --target "$@" | awk '
    match($0, /^\[[0-9]+\/[0-9]+\] /) {
      split(substr($0, 2, RLENGTH - 3), part, "/")
      tenth = int(10 * part[1] / part[2])
      if (tenth > last) { last = tenth; print "  " 10 * tenth " % built"; fflush() }
      next
    }
    { print; fflush() }'
}

# install_missing LIST...: installs what the lists in tools/packages name and this machine lacks.

install_missing() {
  local lists=() wanted missing=() package
  for list in "$@"; do lists+=("tools/packages/$list.txt"); done
  mapfile -t wanted < <(sort -u "${lists[@]}")

  if ! command -v dpkg-query >/dev/null; then
    echo "This machine has no dpkg. Shimwright is built on Debian 12 and 13; it needs: ${wanted[*]}" >&2
    return 1
  fi
  for package in "${wanted[@]}"; do
    # a Node.js from elsewhere does as well, and Debian's would push it aside
    case $package in
      nodejs) command -v node >/dev/null && continue ;;
      npm) command -v npm >/dev/null && continue ;;
    esac
    [[ $(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null) == installed ]] || missing+=("$package")
  done
  ((${#missing[@]} == 0)) && return 0

  local as_root=()
  if ((EUID != 0)); then
    if ! command -v sudo >/dev/null; then
      echo "These packages are missing, and neither root nor sudo is at hand: ${missing[*]}" >&2
      echo "Install them as root: apt-get install --no-install-recommends ${missing[*]}" >&2
      return 1
    fi
    as_root=(sudo)
  fi
  echo "Installing ${#missing[@]} packages: ${missing[*]}"
  local log=${TMPDIR:-/tmp}/shimwright-apt-$EUID.log
  if ! { "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q update &&
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q -y --no-install-recommends \
      -o Dpkg::Use-Pty=0 install "${missing[@]}"; } >"$log" 2>&1; then
    tail -15 "$log" >&2
    echo "apt could not install them; all that it said is in $log" >&2
    return 1
  fi
}
