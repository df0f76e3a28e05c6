#include "tests/cli/vcd_file.hpp"

#include <algorithm>
#include <charconv>
#include <set>
#include <sstream>
#include <stdexcept>

namespace sixty::cli {
namespace {

const std::set<std::string> kVariableTypes = {
    "event", "integer", "parameter", "real",   "realtime", "reg",  "supply0", "supply1", "time",
    "tri",   "triand",  "trior",     "trireg", "tri0",     "tri1", "wand",    "wire",    "wor"};
const std::set<std::string> kScopeTypes = {"begin", "fork", "function", "module", "task"};
const std::set<std::string> kKeywords = {
    "$comment", "$date",    "$enddefinitions", "$scope",   "$timescale", "$upscope",
    "$var",     "$version", "$dumpall",        "$dumpoff", "$dumpon",    "$dumpvars"};
const std::set<std::string> kUnits = {"s", "ms", "us", "ns", "ps", "fs"};

class Reader {
 public:
  explicit Reader(const std::string& text) : words_(text) {}

  VcdFile read() {
    while (declaration(next())) {
    }
    for (std::string word; words_ >> word;) simulation(word);
    if (inside_dump_) throw std::runtime_error("a dump is not closed");
    return std::move(file_);
  }

 private:
  std::string next() {
    std::string word;
    if (!(words_ >> word)) throw std::runtime_error("the file ends too early");
    return word;
  }

  std::vector<std::string> until_end() {
    std::vector<std::string> words;
    for (std::string word = next(); word != "$end"; word = next()) {
      if (kKeywords.count(word) != 0) throw std::runtime_error("keyword inside a section: " + word);
      words.push_back(word);
    }
    return words;
  }

  // False at the end of the declarations.
  bool declaration(const std::string& keyword) {
    const std::vector<std::string> words = until_end();
    if (keyword == "$timescale") return timescale(words);
    if (keyword == "$scope") return scope(words);
    if (keyword == "$upscope") return upscope();
    if (keyword == "$var") return variable(words);
    if (keyword == "$enddefinitions") return end_of_declarations();
    if (keyword == "$comment" || keyword == "$date" || keyword == "$version") return true;
    throw std::runtime_error("not a declaration: " + keyword);
  }

  bool timescale(const std::vector<std::string>& words) {
    const bool sound = words.size() == 2 &&
                       (words[0] == "1" || words[0] == "10" || words[0] == "100") &&
                       kUnits.count(words[1]) != 0;
    if (!sound) throw std::runtime_error("bad timescale");
    file_.timescale = words[0] + " " + words[1];
    return true;
  }

  bool scope(const std::vector<std::string>& words) {
    if (words.size() != 2 || kScopeTypes.count(words[0]) == 0)
      throw std::runtime_error("bad scope");
    scopes_.push_back(words[1]);
    return true;
  }

  bool upscope() {
    if (scopes_.empty()) throw std::runtime_error("too many upscopes");
    scopes_.pop_back();
    return true;
  }

  bool variable(const std::vector<std::string>& words) {
    if (words.size() < 4 || kVariableTypes.count(words[0]) == 0 || scopes_.empty()) {
      throw std::runtime_error("bad variable");
    }
    std::string name;
    for (const std::string& scope : scopes_) name += scope + ".";
    check_code(words[2]);
    const VcdFile::Variable made = {words[0], words[2], name + words[3], std::stoi(words[1])};
    for (const VcdFile::Variable& other : file_.variables) {
      if (other.name == made.name) throw std::runtime_error("twice: " + made.name);
    }
    by_code_[made.code] = file_.variables.size();
    file_.variables.push_back(made);
    return true;
  }

  static void check_code(const std::string& code) {
    for (const char c : code) {
      if (c < 33 || c > 126) throw std::runtime_error("bad character in code " + code);
    }
  }

  bool end_of_declarations() {
    if (!scopes_.empty()) throw std::runtime_error("a scope is not closed");
    return false;
  }

  void simulation(const std::string& word) {
    if (word[0] == '#') {
      time(word.substr(1));
    } else if (word == "$comment") {
      until_end();
    } else if (word == "$end") {
      if (!inside_dump_) throw std::runtime_error("stray $end");
      inside_dump_ = false;
    } else if (word[0] == '$') {
      begin_dump(word);
    } else {
      change(word);
    }
  }

  void begin_dump(const std::string& word) {
    const std::set<std::string> known = {"$dumpvars", "$dumpall", "$dumpon", "$dumpoff"};
    if (inside_dump_ || known.count(word) == 0) throw std::runtime_error("unexpected " + word);
    inside_dump_ = true;
  }

  void time(const std::string& digits) {
    std::int64_t at = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), at);
    if (error != std::errc() || end != digits.data() + digits.size()) {
      throw std::runtime_error("bad time " + digits);
    }
    if (at <= file_.last_time) throw std::runtime_error("time goes back at " + digits);
    file_.last_time = at;
  }

  void change(const std::string& word) {
    const char kind = word[0];
    if (kind == 'r' || kind == 'R' || kind == 'b' || kind == 'B') {
      put(next(), word.substr(1), kind == 'r' || kind == 'R');
    } else if (std::string("01xXzZ").find(kind) != std::string::npos) {
      put(word.substr(1), word.substr(0, 1), false);
    } else {
      throw std::runtime_error("bad change " + word);
    }
  }

  void put(const std::string& code, const std::string& value, bool real) {
    const auto found = by_code_.find(code);
    if (found == by_code_.end()) throw std::runtime_error("unknown code " + code);
    const VcdFile::Variable& variable = file_.variables[found->second];
    if ((variable.type == "real") != real) throw std::runtime_error("wrong form " + variable.name);
    if (file_.last_time < 0) throw std::runtime_error("a change before any time");
    if (real) (void)std::stod(value);
    file_.changes.push_back({file_.last_time, variable.name, value});
  }

  std::istringstream words_;
  VcdFile file_;
  std::vector<std::string> scopes_;
  std::map<std::string, std::size_t> by_code_;
  bool inside_dump_ = false;
};

}  // namespace

std::vector<VcdFile::Change> VcdFile::of(const std::string& name) const {
  std::vector<Change> found;
  std::copy_if(changes.begin(), changes.end(), std::back_inserter(found),
               [&](const Change& c) { return c.name == name; });
  return found;
}

VcdFile read_vcd(const std::string& text, std::string& error) {
  error.clear();
  try {
    return Reader(text).read();
  } catch (const std::exception& e) {
    error = e.what();
    return {};
  }
}

}  // namespace sixty::cli
