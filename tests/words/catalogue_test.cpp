// The template of all catalogues, sim/words/words.pot, holds all words that are shown; the German
// catalogue has them all. `SIXTY_WRITE_WORDS=1 build/tests/words_tests` writes the template anew
// and puts what is new into each catalogue, to be translated there.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <unistd.h>

#include <algorithm>
#include <boost/algorithm/string/predicate.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

#include "sim/words/words.hpp"
#include "tests/words/data_words.hpp"
#include "tests/words/po_file.hpp"

namespace sixty {
namespace {

namespace fs = std::filesystem;

const fs::path kRoot = SIXTY_SOURCE_DIR;
const fs::path kTemplate = kRoot / "sim/words/words.pot";

std::string in_po_quotes(const std::string& words) {
  std::string text = "\"";
  for (const char c : words) {
    if (c == '\n') {
      text += "\\n";
      continue;
    }
    if (c == '"' || c == '\\') text += '\\';
    text += c;
  }
  return text + "\"";
}

int run(const std::string& command) { return std::system(command.c_str()); }

std::string sources() {
  std::vector<std::string> files;
  for (const char* folder : {"sim", "gui", "models"})
    for (const auto& file : fs::recursive_directory_iterator(kRoot / folder))
      if (file.path().extension() == ".cpp" || file.path().extension() == ".hpp")
        files.push_back(fs::relative(file.path(), kRoot));
  std::sort(files.begin(), files.end());
  std::string all;
  for (const std::string& file : files) all += file + "\n";
  return all;
}

/// Writes the template as it should be.
fs::path write_template(const fs::path& folder) {
  fs::create_directories(folder);
  std::ofstream(folder / "files") << sources();
  {
    std::ofstream data(folder / "data.pot");
    data << "msgid \"\"\nmsgstr \"Content-Type: text/plain; charset=UTF-8\\n\"\n";
    std::map<std::pair<std::string, std::string>, std::set<std::string>> places;
    for (const DataWords& one : data_words()) places[{one.context, one.words}].insert(one.place);
    for (const auto& [key, at] : places) {
      for (const std::string& place : at) data << "\n#: " << place;
      if (!key.first.empty()) data << "\nmsgctxt " << in_po_quotes(key.first);
      data << "\nmsgid " << in_po_quotes(key.second) << "\nmsgstr \"\"\n";
    }
  }
  const std::string at = "'" + folder.string() + "'";
  const std::string command =
      "cd '" + kRoot.string() + "' && xgettext --language=C++ --from-code=UTF-8 -k -ktr:1 " +
      "-ktr_as:1c,2 -kto_tr:1 -kto_tr_as:1c,2 -ksay:1 -ksay_counted:1,2 --add-location=file -o " +
      at + "/source.pot --files-from=" + at + "/files 2>" + at +
      "/log && msgcat --sort-by-file -o " + at + "/all.pot " + at + "/source.pot " + at +
      "/data.pot 2>>" + at +
      // A per cent sign makes no format of C, and the day on which it was written is no change.
      "/log && sed -e '/^#, c-format$/d' -e '/^\"POT-Creation-Date/d' " + at + "/all.pot >" + at +
      "/words.pot";
  EXPECT_EQ(run(command), 0) << PoFile::text_of(folder / "log");
  return folder / "words.pot";
}

bool writes() { return std::getenv("SIXTY_WRITE_WORDS") != nullptr; }

void write_catalogues(const fs::path& made) {
  fs::copy_file(made, kTemplate, fs::copy_options::overwrite_existing);
  for (const Language& language : languages()) {
    if (language.code == "en") continue;
    const std::string po = "'" + (kRoot / "sim/words" / (language.code + ".po")).string() + "'";
    EXPECT_EQ(
        run("msgmerge --quiet --update --backup=none --no-fuzzy-matching --sort-by-file " + po +
            " '" + kTemplate.string() + "' && msgattrib --no-obsolete -o " + po + " " + po),
        0);
  }
}

TEST(Catalogue, TheTemplateHoldsAllWordsThatAreShown) {
  const fs::path folder = testing::TempDir() + "words-" + std::to_string(getpid());
  const fs::path made = write_template(folder);
  if (writes()) write_catalogues(made);
  const PoFile is(kTemplate), should(made);
  EXPECT_GT(should.entries().size(), 500U);
  for (const PoEntry& entry : should.entries())
    EXPECT_NE(is.find(entry.context, entry.english), nullptr)
        << entry.place << ": \"" << entry.english
        << "\" is not in sim/words/words.pot; run SIXTY_WRITE_WORDS=1 build/tests/words_tests";
  for (const PoEntry& entry : is.entries())
    EXPECT_NE(should.find(entry.context, entry.english), nullptr)
        << "\"" << entry.english << "\" in sim/words/words.pot is said nowhere any more";
  fs::remove_all(folder);
}

/// Lessons after the third are a catalogue's own choice.
bool may_stay_english(const PoEntry& entry) {
  return std::all_of(entry.places.begin(), entry.places.end(), [](const std::string& place) {
    return place.rfind("scenes/lessons/", 0) == 0 && place.substr(15, 2) > "03";
  });
}

class EachCatalogue : public testing::TestWithParam<std::string> {
 protected:
  PoFile catalogue() const { return PoFile(kRoot / "sim/words" / (GetParam() + ".po")); }
};

TEST_P(EachCatalogue, HasWordsForEverythingInTheTemplate) {
  const PoFile words(kTemplate), own = catalogue();
  for (const PoEntry& entry : words.entries()) {
    const PoEntry* translated = own.find(entry.context, entry.english);
    ASSERT_NE(translated, nullptr) << entry.english;
    if (!may_stay_english(entry)) {
      EXPECT_FALSE(translated->translated.front().empty() || translated->fuzzy)
          << entry.place << ": " << entry.english;
    }
  }
}

TEST_P(EachCatalogue, FillsInWhatTheEnglishWordsFillIn) {
  const PoFile own = catalogue();
  for (const PoEntry& entry : own.entries()) {
    if (entry.translated.front().empty()) continue;
    std::vector<std::string> english = braces_in(entry.many.empty() ? entry.english : entry.many);
    for (const std::string& words : entry.translated)
      EXPECT_EQ(braces_in(words), english) << entry.english << "\n" << words;
  }
}

TEST_P(EachCatalogue, BeginsAndEndsAsTheEnglishWordsDo) {
  const PoFile own = catalogue();
  for (const PoEntry& entry : own.entries()) {
    const std::string& words = entry.translated.front();
    if (words.empty() || entry.english.size() == 1) continue;
    EXPECT_EQ(words.front() == ' ', entry.english.front() == ' ') << entry.english;
    EXPECT_EQ(words.back() == ' ', entry.english.back() == ' ') << entry.english;
    EXPECT_EQ(words.back() == '.', entry.english.back() == '.') << entry.english << "\n" << words;
    EXPECT_EQ(words.back() == ':', entry.english.back() == ':') << entry.english << "\n" << words;
  }
}

std::vector<std::string> codes() {
  std::vector<std::string> all;
  for (const Language& language : languages())
    if (language.code != "en") all.push_back(language.code);
  return all;
}

INSTANTIATE_TEST_SUITE_P(Shipped, EachCatalogue, testing::ValuesIn(codes()),
                         [](const auto& one) { return one.param; });

}  // namespace
}  // namespace sixty
