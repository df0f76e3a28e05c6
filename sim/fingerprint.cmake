# Writes a source file with a hash of the texts of all files named in a list: run while building,
# so that it is another one as soon as any of them is.
# cmake -DLIST=FILE -DOUT=FILE -P fingerprint.cmake
file(STRINGS ${LIST} files)
set(all "")
foreach(file IN LISTS files)
  file(SHA256 ${file} one)
  string(APPEND all ${one})
endforeach()
string(SHA256 whole "${all}")
string(SUBSTRING ${whole} 0 16 print)
file(WRITE ${OUT} "// Written by sim/fingerprint.cmake; edits are lost.
#include \"sim/diagnose/fingerprint.hpp\"

namespace sixty::diagnose {

std::uint64_t program_fingerprint() { return 0x${print}; }

}  // namespace sixty::diagnose
")
