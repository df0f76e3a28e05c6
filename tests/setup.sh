# Sourced by gui/start, tests/run and .ci/run: installs what is missing, configures and builds.
# It speaks on standard error only, so that a report on standard output stays clean.
# After sourcing, `root` is the top of the tree; the caller's current folder stays as it was.

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd -P)

program_packages=(g++ cmake ninja-build pkg-config libfmt-dev libudunits2-dev libeigen3-dev
  libyaml-cpp-dev nlohmann-json3-dev libcli11-dev libboost-locale-dev gettext libhowardhinnant-date-dev
  libsfml-dev libimgui-dev libglu1-mesa-dev libx11-dev libsodium-dev libspdlog-dev libsystemd-dev
  fonts-dejavu-core)
test_packages=(libgtest-dev libgmock-dev librapidcheck-dev libvalijson-dev libboost-dev
  xvfb xdotool)
ci_packages=(git ccache clang libclang-rt-14-dev clang-format clang-tidy libbenchmark-dev
  libngspice0-dev libsundials-dev libsystemc-dev)

# A copy of the tree in another folder may use what the compiler cache already holds.
export CCACHE_BASEDIR=$root CCACHE_NOHASHDIR=1

say() { printf '%s\n' "$*" >&2; }

# Runs a command with its output in a log; if it fails, shows the log's end and returns its status.
quietly() {
  local log=$1 status=0
  shift
  "$@" >"$log" 2>&1 </dev/null || status=$?
  if ((status)); then
    tail -n 40 "$log" >&2
    say "This failed: $*"
    say "The whole log: $log"
  fi
  return "$status"
}

missing_packages() {
  local package
  for package; do
    [[ $(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null) == installed ]] ||
      printf '%s\n' "$package"
  done
}

# Installs those of the named Debian packages that are missing; asks nothing when none is.
install_packages() {
  local missing as_root=() log
  if ! command -v dpkg-query >/dev/null || ! command -v apt-get >/dev/null; then
    say "No apt-get here, so nothing is installed; needed (Debian's names): $*"
    return 0
  fi
  mapfile -t missing < <(missing_packages "$@")
  ((${#missing[@]})) || return 0
  if ((EUID != 0)); then
    if ! command -v sudo >/dev/null; then
      say "Packages are missing, and this is neither root nor is there sudo. As root, please run:"
      say "  apt-get install --no-install-recommends ${missing[*]}"
      return 1
    fi
    as_root=(sudo)
    say "Packages are missing; sudo may ask for your password to install them."
  fi
  as_root+=(env DEBIAN_FRONTEND=noninteractive apt-get -o DPkg::Lock::Timeout=300)
  say "Installing ${missing[*]} ..."
  log=$(mktemp)
  quietly "$log" "${as_root[@]}" update &&
    quietly "$log" "${as_root[@]}" install -y --no-install-recommends "${missing[@]}" &&
    rm -f "$log"
}

# build PRESET FOLDER [TARGET...]: configures when needed and builds; speaks only on failure.
build() {
  local preset=$1 folder=$root/$2 log fresh=()
  shift 2
  if ! mkdir -p "$folder" || [[ ! -w $folder ]]; then
    say "Cannot write in $folder; if another user built there, remove it: sudo rm -r $root/build"
    return 1
  fi
  log=$folder/build.log
  # A build folder that came along when the tree was moved or copied still names the old place.
  if [[ -f $folder/CMakeCache.txt ]] &&
    ! grep -qxF "CMAKE_HOME_DIRECTORY:INTERNAL=$root" "$folder/CMakeCache.txt"; then
    fresh=(--fresh)
  fi
  [[ -f $folder/build.ninja ]] || say "Building in $folder; the first time takes a minute or more ..."
  (
    cd "$root" &&
      quietly "$log" cmake --preset "$preset" "${fresh[@]}" &&
      quietly "$log" cmake --build "$folder" ${1:+--target "$@"}
  )
}

# run_tests FOLDER [CTEST ARGUMENT...]: runs ctest and sets `passed` and `failed`; returns its status.
run_tests() {
  local folder=$root/$1 log status=0 summary
  shift
  log=$folder/tests.log
  ctest --test-dir "$folder" --no-tests=error --no-label-summary --output-on-failure \
    --parallel 2 "$@" 2>&1 |
    tee "$log" || status=$?
  passed=0 failed=0
  summary=$(grep -oE '[0-9]+ tests failed out of [0-9]+$' "$log") || return "$status"
  failed=${summary%% *}
  passed=$((${summary##* } - failed))
  return "$status"
}
