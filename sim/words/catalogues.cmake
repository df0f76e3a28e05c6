# cmake -DOUT=catalogues.cpp "-DMO=de.mo;..." -P catalogues.cmake: writes the catalogues as a source, so that
# the program has them in any folder.
set(arrays)
set(entries)
foreach(file IN LISTS MO)
  cmake_path(GET file STEM code)
  file(READ ${file} hex HEX)
  string(REGEX REPLACE "(..)" "0x\\1," bytes "${hex}")
  string(APPEND arrays "const unsigned char k_${code}[] = {${bytes}};\n")
  string(APPEND entries "      {\"${code}\", k_${code}, sizeof k_${code}},\n")
endforeach()
file(WRITE ${OUT} "// Written by catalogues.cmake from *.po; edits are lost.
#include \"sim/words/catalogues.hpp\"

namespace sixty {
namespace {

${arrays}
}  // namespace

const std::vector<Catalogue>& catalogues() {
  static const std::vector<Catalogue> all{
${entries}  };
  return all;
}

}  // namespace sixty
")
