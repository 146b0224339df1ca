# Sourced by tools/start and tools/check: installs the Debian packages of a list that this machine lacks.

as_root() {
  if [ "$(id -u)" = 0 ]; then
    "$@"
  elif command -v sudo >/dev/null; then
    sudo "$@"
  else
    echo "This needs root or sudo: $*" >&2
    return 1
  fi
}

# install_missing FILE...: each FILE holds one package name a line.
install_missing() {
  local missing=() name
  for name in $(cat "$@"); do
    [ "$(dpkg-query -W -f='${Status}' "$name" 2>/dev/null)" = "install ok installed" ] || missing+=("$name")
  done
  [ ${#missing[@]} -gt 0 ] || return 0
  echo "Installing ${#missing[@]} Debian packages: ${missing[*]}"
  as_root apt-get update -qq
  as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
}

# stage TITLE COMMAND...: says what runs and how long it took; stops the script where it fails.
stage() {
  local title=$1 from=$SECONDS
  shift
  echo "== $title"
  "$@" || { echo "-- $title failed after $((SECONDS - from)) s" >&2; exit 1; }
  echo "-- $title: $((SECONDS - from)) s"
}
