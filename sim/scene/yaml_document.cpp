#include "sim/scene/yaml_document.hpp"

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <exception>
#include <map>
#include <sstream>

#include "sim/base/file.hpp"
#include "sim/base/text.hpp"
#include "sim/scene/yaml_hint.hpp"

// A file passes three gates. Before the parser: size, encoding, control characters and the number
// of punctuation marks (the parser keeps several hundred bytes for each, before its first event).
// While it parses: what it reports goes straight into our tree, where depth, number and size are
// bounded, so that its own recursion never goes deep and nothing has to be walked afterwards.
// After it: an error is traced back to the likely cause.

namespace sixty {
namespace {

constexpr std::size_t kMaxMistakes = 50;
constexpr std::size_t kMaxMarks = 4 * kYamlMaxNodes;
constexpr const char* kUtf8Mend = "save the file as plain UTF-8 text";

// Thrown, within this file, when going on makes no sense; the mistake has been noted.
struct Stop {};

// Notes mistakes of one file.
class Notes {
 public:
  Notes(const std::string& path, Diagnostics& diagnostics)
      : path_(path), diagnostics_(diagnostics) {}

  void add(const TextPlace& place, const std::string& what, const std::string& found,
           const std::string& expected, const std::string& mend) {
    diagnostics_.add({path_, place.line, place.column, what, printable(found, 60), expected, mend});
    if (++count_ >= kMaxMistakes) throw Stop{};
  }
  bool empty() const { return count_ == 0; }

 private:
  const std::string& path_;
  Diagnostics& diagnostics_;
  std::size_t count_ = 0;
};

TextPlace marked(const YAML::Mark& mark) {
  return mark.is_null() ? TextPlace{0, 0} : TextPlace{mark.line + 1, mark.column + 1};
}

bool is_control(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return (byte < 0x20 && c != '\n' && c != '\t' && c != '\r') || byte == 0x7F;
}

// Offset of the first character that no YAML text holds, or npos.
std::size_t find_control(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool lone_return = text[i] == '\r' && (i + 1 == text.size() || text[i + 1] != '\n');
    if (is_control(text[i]) || lone_return) return i;
  }
  return std::string_view::npos;
}

// Offset of the mark that is one too many, or npos.
std::size_t find_excess_mark(std::string_view text) {
  std::size_t marks = 0;
  std::size_t at = text.find_first_of(",:?[]{}");
  while (at != std::string_view::npos && ++marks <= kMaxMarks)
    at = text.find_first_of(",:?[]{}", at + 1);
  return at;
}

void check_text(std::string_view text, Notes& notes) {
  if (text.size() > kYamlMaxBytes) {
    notes.add({1, 1}, "the file is too large", std::to_string(text.size()) + " bytes",
              "at most " + std::to_string(kYamlMaxBytes) + " bytes", "split it");
    throw Stop{};
  }
  const std::size_t invalid = find_invalid_utf8(text);
  if (invalid != std::string_view::npos) {
    notes.add(place_of(text, invalid), "this is not UTF-8 text",
              std::string(text.substr(invalid, 1)), "UTF-8", kUtf8Mend);
    throw Stop{};
  }
  const std::size_t control = find_control(text);
  if (control != std::string_view::npos) {
    const bool lone_return = text[control] == '\r';
    notes.add(place_of(text, control),
              lone_return ? "a line ends with a carriage return alone" : "a control character",
              std::string(text.substr(control, 1)), "plain text with line feeds", kUtf8Mend);
    throw Stop{};
  }
  const std::size_t excess = find_excess_mark(text);
  if (excess != std::string_view::npos) {
    notes.add(place_of(text, excess), "there are too many commas, colons and brackets", "",
              "at most " + std::to_string(kMaxMarks), "split the file");
    throw Stop{};
  }
}

// Takes the parser's events and builds our tree from them.
class TreeBuilder : public YAML::EventHandler {
 public:
  TreeBuilder(std::string_view text, Notes& notes) : text_(text), notes_(notes) {}

  const std::optional<YamlNode>& root() const { return root_; }

  void OnDocumentStart(const YAML::Mark& mark) override;
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override;
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t anchor) override;
  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override;
  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value style) override;
  void OnSequenceEnd() override { close(); }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value style) override;
  void OnMapEnd() override { close(); }

 private:
  // A list or map that is still open.
  struct Open {
    YamlNode node;
    std::optional<YamlNode> key;       // of a map: read, and waiting for its value
    std::map<std::string, int> lines;  // of a map: where each key stands
  };

  YamlNode begin(YamlNode::Kind kind, const YAML::Mark& mark, const std::string& tag,
                 YAML::anchor_t anchor);
  void open(YamlNode node);
  void close();
  void place(YamlNode node);
  void place_key(Open& map, YamlNode key);
  void place_value(Open& map, YamlNode value);
  void check_scalar(const YAML::Mark& mark, const YamlNode& node);

  std::string_view text_;
  Notes& notes_;
  std::vector<Open> open_;
  std::optional<YamlNode> root_;
  TextPlace last_;  // of the event before
  std::size_t nodes_ = 0;
  bool started_ = false;
};

void TreeBuilder::OnDocumentStart(const YAML::Mark& mark) {
  if (started_) {
    const auto offset = static_cast<std::size_t>(mark.pos);
    const bool dashes = text_.substr(std::min(offset, text_.size()), 3) == "---";
    notes_.add(marked(mark),
               dashes ? "a second document begins" : "text follows after the end of the document",
               "", "one document in a file",
               dashes ? "put it into a file of its own"
                      : "check the indentation: what belongs together begins in one column");
    throw Stop{};
  }
  started_ = true;
  last_ = marked(mark);
}

YamlNode TreeBuilder::begin(YamlNode::Kind kind, const YAML::Mark& mark, const std::string& tag,
                            YAML::anchor_t anchor) {
  if (++nodes_ > kYamlMaxNodes) {
    notes_.add(marked(mark), "the file holds too many values", "",
               "at most " + std::to_string(kYamlMaxNodes), "split the file");
    throw Stop{};
  }
  if (anchor != YAML::NullAnchor)
    notes_.add(marked(mark), "anchors are not read", "", "each value written out",
               "take the & and its name away, or put the text in quotes");
  if (tag.size() > 1)
    notes_.add(marked(mark), "tags are not read", tag, "a value without tag",
               "take the ! and its name away, or put the text in quotes");
  YamlNode node;
  node.kind = kind;
  node.quoted = kind == YamlNode::kScalar && tag == "!";
  last_ = marked(mark);
  node.line = last_.line;
  node.column = last_.column;
  return node;
}

void TreeBuilder::OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) {
  // The parser notices an absent value only when it comes to what follows, lines later perhaps.
  const TextPlace before = last_;
  YamlNode node = begin(YamlNode::kNull, mark, "", anchor);
  if (node.line > before.line) {
    last_ = before;
    node.line = before.line;
    node.column = before.column;
  }
  place(std::move(node));
}

void TreeBuilder::OnAlias(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) {
  notes_.add(marked(mark), "aliases are not read", "", "each value written out",
             "write the value itself instead of * and a name, or put the text in quotes");
  place(begin(YamlNode::kNull, mark, "", YAML::NullAnchor));
}

void TreeBuilder::OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                           const std::string& value) {
  YamlNode node = begin(YamlNode::kScalar, mark, tag, anchor);
  node.scalar = value;
  check_scalar(mark, node);
  place(std::move(node));
}

void TreeBuilder::check_scalar(const YAML::Mark& mark, const YamlNode& node) {
  const bool closed = !node.quoted || quotes_are_closed(text_, static_cast<std::size_t>(mark.pos));
  if (!closed) {
    notes_.add(marked(mark), "the quotes that open here are never closed", node.scalar,
               "closing quotes", "close them, or leave both out");
    throw Stop{};
  }
  if (node.scalar.size() > kYamlMaxScalarBytes)
    notes_.add(marked(mark), "the text is too long", node.scalar,
               "at most " + std::to_string(kYamlMaxScalarBytes) + " bytes", "shorten it");
  if (find_control(node.scalar) != std::string::npos ||
      find_invalid_utf8(node.scalar) != std::string::npos)
    notes_.add(marked(mark), "the text holds a control character", node.scalar,
               "characters that can be printed", "take the escape with \\ away");
}

void TreeBuilder::OnSequenceStart(const YAML::Mark& mark, const std::string& tag,
                                  YAML::anchor_t anchor, YAML::EmitterStyle::value /*style*/) {
  open(begin(YamlNode::kList, mark, tag, anchor));
}

void TreeBuilder::OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                             YAML::EmitterStyle::value /*style*/) {
  open(begin(YamlNode::kMap, mark, tag, anchor));
}

void TreeBuilder::open(YamlNode node) {
  if (open_.size() >= kYamlMaxDepth) {
    const TextPlace place{node.line, node.column};
    const std::optional<YamlHint> hint = find_yaml_hint(text_, node.line);
    notes_.add(hint ? place_of(text_, hint->offset) : place,
               hint ? hint->what : "values are nested too deep", "",
               "at most " + std::to_string(kYamlMaxDepth) + " levels",
               hint ? hint->mend : "check the brackets, or arrange the values more simply");
    throw Stop{};
  }
  open_.push_back({std::move(node), std::nullopt, {}});
}

void TreeBuilder::close() {
  YamlNode node = std::move(open_.back().node);
  open_.pop_back();
  place(std::move(node));
}

void TreeBuilder::place(YamlNode node) {
  if (open_.empty()) {
    root_ = std::move(node);
    return;
  }
  Open& parent = open_.back();
  if (parent.node.kind == YamlNode::kList) {
    parent.node.items.push_back(std::move(node));
  } else if (!parent.key) {
    place_key(parent, std::move(node));
  } else {
    place_value(parent, std::move(node));
  }
}

void TreeBuilder::place_key(Open& map, YamlNode key) {
  const TextPlace place{key.line, key.column};
  if (key.kind != YamlNode::kScalar || key.scalar.empty())
    notes_.add(place, "a key is not a text", "", "a name before the colon",
               "write the name, in quotes if it holds special characters");
  if (key.scalar == "<<")
    notes_.add(place, "merging with << is not read", "", "each value written out",
               "write the values themselves");
  map.key = std::move(key);
}

void TreeBuilder::place_value(Open& map, YamlNode value) {
  YamlNode key = std::move(*map.key);
  map.key.reset();
  const auto [first, added] = map.lines.emplace(key.scalar, key.line);
  if (added) {
    map.node.entries.push_back({std::move(key), std::move(value)});
    return;
  }
  if (key.kind == YamlNode::kScalar)
    notes_.add({key.line, key.column}, "the key \"" + printable(key.scalar, 60) + "\" comes twice",
               "", "each key once", "line " + std::to_string(first->second) + " has it already");
}

struct SyntaxMend {
  std::string_view message;  // what the parser says
  const char* what;
  const char* mend;
};
constexpr SyntaxMend kSyntaxMends[] = {
    {"illegal map value", "a colon stands where no key can be",
     "check the indentation, and put a text that holds a colon in quotes"},
    {"end of map not found", "this does not belong to the map above",
     "check the indentation (keys of one map begin in one column) and the colon after each key"},
    {"end of sequence not found", "this does not belong to the list above",
     "check the indentation: the dashes of one list stand in one column"},
    {"illegal block entry", "a list cannot begin here",
     "begin it on a line of its own, or write it as [a, b]"},
    {"illegal flow end", "this bracket closes nothing", "take it away, or put the text in quotes"},
    {"unknown token", "a value cannot begin with this character", "put the text in quotes"},
    {"unknown escape character", "nothing is known by this escape",
     "write \\\\ for a backslash, or use single quotes"},
    {"the referenced anchor is not defined", "aliases are not read",
     "put a text that begins with * in quotes"},
};

void note_syntax(const YAML::Exception& error, std::string_view text, Notes& notes) {
  const TextPlace place = marked(error.mark);
  const std::optional<YamlHint> hint = find_yaml_hint(text, place.line);
  if (hint) {
    notes.add(place_of(text, hint->offset), hint->what, "", "", hint->mend);
    return;
  }
  for (const SyntaxMend& row : kSyntaxMends) {
    if (std::string_view(error.msg).substr(0, row.message.size()) != row.message) continue;
    notes.add(place, row.what, "", "", row.mend);
    return;
  }
  notes.add(place, "the YAML cannot be read here", error.msg, "",
            "check quotes, brackets and indentation up to this place");
}

void parse(std::string_view text, TreeBuilder& builder, Notes& notes) {
  try {
    std::istringstream in{std::string(text)};
    YAML::Parser parser(in);
    while (parser.HandleNextDocument(builder)) {
    }
  } catch (const YAML::Exception& error) {
    note_syntax(error, text, notes);
  }
}

std::string_view without_byte_order_mark(std::string_view text) {
  return text.substr(0, 3) == "\xEF\xBB\xBF" ? text.substr(3) : text;
}

}  // namespace

const YamlNode* YamlNode::find(std::string_view key) const {
  for (const auto& [name, value] : entries)
    if (name.scalar == key) return &value;
  return nullptr;
}

std::optional<YamlNode> parse_yaml(std::string_view text, const std::string& path,
                                   Diagnostics& diagnostics) {
  Notes notes(path, diagnostics);
  text = without_byte_order_mark(text);
  TreeBuilder builder(text, notes);
  try {
    check_text(text, notes);
    parse(text, builder, notes);
    const bool empty = !builder.root() || builder.root()->kind == YamlNode::kNull;
    if (notes.empty() && empty)
      notes.add({1, 1}, "the file is empty", "", "a YAML document",
                "write it, or leave the file out");
  } catch (const Stop&) {
    return std::nullopt;
  } catch (const std::exception& error) {
    diagnostics.add({path, 1, 1, "the file cannot be read", error.what(), "", ""});
    return std::nullopt;
  }
  if (!notes.empty()) return std::nullopt;
  return builder.root();
}

std::optional<YamlNode> read_yaml(const std::string& path, Diagnostics& diagnostics) {
  const std::optional<std::string> text = read_file_bounded(path, kYamlMaxBytes, diagnostics);
  if (!text) return std::nullopt;
  return parse_yaml(*text, path, diagnostics);
}

}  // namespace sixty
