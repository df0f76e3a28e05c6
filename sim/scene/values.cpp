#include "sim/scene/values.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "sim/base/units.hpp"

namespace sixty {
namespace {

constexpr double kUnbounded = 1e300;

std::optional<Value> out_of_range(const ParamDecl& decl, const Written& written,
                                  Mistakes& mistakes) {
  mistakes.add(written.place, {labelled(written, "out of range"), written.text, expectation(decl),
                               "choose a value in this range"});
  return std::nullopt;
}

std::optional<double> parse_number(const ParamDecl& decl, const Written& written,
                                   Mistakes& mistakes) {
  Diagnostic mistake;
  const std::optional<double> number = parse_quantity(written.text, decl.unit, mistake);
  if (!number)
    mistakes.add(written.place,
                 {labelled(written, mistake.what), mistake.found, mistake.expected, mistake.mend});
  return number;
}

// The nearest number that may be given.
double nearest_step(const ParamDecl& decl, double number) {
  return decl.step > 0 ? std::round(number / decl.step) * decl.step : number;
}

std::optional<Value> between_steps(const ParamDecl& decl, const Written& written, double nearest,
                                   Mistakes& mistakes) {
  const std::string what = decl.step == 1 ? "a whole number belongs here" : "between two steps";
  mistakes.add(written.place, {labelled(written, what), written.text, expectation(decl),
                               "take the nearest, " + format_quantity(nearest, decl.unit)});
  return std::nullopt;
}

std::optional<Value> check_quantity(const ParamDecl& decl, const Written& written,
                                    Mistakes& mistakes) {
  std::optional<double> number;
  if (decl.told == Told::kDial) number = read_dial_time(written.text);
  if (!number) number = parse_number(decl, written, mistakes);
  if (!number) return std::nullopt;
  if (!in_range(decl, *number)) return out_of_range(decl, written, mistakes);
  const double nearest = nearest_step(decl, *number);
  const double slack = 1e-9 * std::max(decl.step, std::fabs(*number));
  if (std::fabs(nearest - *number) > slack) return between_steps(decl, written, nearest, mistakes);
  Value value;
  value.number = clamped(decl, nearest);
  return value;
}

bool is_whole(std::string_view text) {
  if (!text.empty() && (text[0] == '-' || text[0] == '+')) text.remove_prefix(1);
  return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos;
}

std::optional<Value> check_count(const ParamDecl& decl, const Written& written,
                                 Mistakes& mistakes) {
  if (is_whole(written.text)) return check_quantity(decl, written, mistakes);
  mistakes.add(written.place, {labelled(written, "a whole number belongs here"), written.text,
                               expectation(decl), "write digits alone, without point or unit"});
  return std::nullopt;
}

std::optional<Value> check_flag(const ParamDecl& decl, const Written& written, Mistakes& mistakes) {
  Value value;
  value.text = written.text;
  if (written.text == "no" || written.text == "false") return value;
  value.number = 1;
  if (written.text == "yes" || written.text == "true") return value;
  mistakes.add(written.place, {labelled(written, "yes or no belongs here"), written.text,
                               expectation(decl), "write yes or no"});
  return std::nullopt;
}

std::optional<Value> check_choice(const ParamDecl& decl, const Written& written,
                                  Mistakes& mistakes) {
  const auto found = std::find(decl.choices.begin(), decl.choices.end(), written.text);
  if (found == decl.choices.end()) {
    mistakes.add_unknown(written.place, written.label, "choice", written.text, decl.choices);
    return std::nullopt;
  }
  Value value;
  value.number = static_cast<double>(found - decl.choices.begin());
  value.text = written.text;
  return value;
}

/// The value with its text and place as they were written.
Value as_written(Value value, const YamlNode& scalar) {
  value.text = scalar.scalar;
  value.line = scalar.line;
  value.column = scalar.column;
  return value;
}

std::optional<Value> check_texts(const YamlNode& node, const std::string& label,
                                 TreeReader& reader) {
  if (!reader.is_list(node, label, "[first, second]")) return std::nullopt;
  Value value;
  bool sound = true;
  for (const YamlNode& item : node.items) {
    sound = reader.is_scalar(item, label, "a text") && sound;
    value.items.push_back(as_written({}, item));
  }
  return sound ? std::optional<Value>(std::move(value)) : std::nullopt;
}

std::optional<Value> check_field(const ParamDecl& field, const YamlNode& record,
                                 const std::string& label, TreeReader& reader) {
  const YamlNode* node = record.find(field.name);
  if (node != nullptr) return check_value(field, *node, label + "." + field.name, reader);
  if (!field.required) return standard_value(field);
  reader.required(record, record, field.name, label, expectation(field));
  return std::nullopt;
}

std::optional<Value::Record> check_record(const ParamDecl& decl, const YamlNode& node,
                                          const std::string& label, TreeReader& reader) {
  std::string example = "{";
  for (const ParamDecl& field : decl.fields)
    if (field.required) example += (example.size() > 1 ? ", " : "") + field.name + ": ...";
  if (!reader.is_map(node, label, example + "}")) return std::nullopt;
  const std::size_t before = reader.mistakes().count();
  reader.check_keys(node, label, names_of(decl.fields));
  Value::Record record;
  for (const ParamDecl& field : decl.fields) {
    std::optional<Value> value = check_field(field, node, label, reader);
    if (value) record.push_back({field.name, std::move(*value)});
  }
  return reader.mistakes().count() == before ? std::optional<Value::Record>(std::move(record))
                                             : std::nullopt;
}

std::optional<Value> check_records(const ParamDecl& decl, const YamlNode& node,
                                   const std::string& label, TreeReader& reader) {
  if (!reader.is_list(node, label, "[{...}, {...}]")) return std::nullopt;
  Value value;
  for (std::size_t i = 0; i < node.items.size(); ++i) {
    std::optional<Value::Record> record =
        check_record(decl, node.items[i], label + "[" + std::to_string(i + 1) + "]", reader);
    if (record) value.records.push_back(std::move(*record));
  }
  return value.records.size() == node.items.size() ? std::optional<Value>(std::move(value))
                                                   : std::nullopt;
}

std::string range_text(const ParamDecl& decl) {
  const std::string unit = decl.kind == ParamKind::kCount ? "1" : decl.unit;
  const std::string least = format_quantity(decl.least, unit);
  if (decl.most >= kUnbounded) return "at least " + least;
  const std::string text = "from " + least + " to " + format_quantity(decl.most, unit);
  if (decl.step == 1) return "a whole number " + text;
  return decl.step > 0 ? text + " in steps of " + format_quantity(decl.step, unit) : text;
}

}  // namespace

bool in_range(const ParamDecl& decl, double number) {
  const double slack = 1e-12 * std::max(std::fabs(decl.least), std::fabs(decl.most));
  return number >= decl.least - slack && number <= decl.most + slack;
}

double clamped(const ParamDecl& decl, double number) {
  return std::min(std::max(number, decl.least), decl.most);
}

std::string expectation(const ParamDecl& decl) {
  switch (decl.kind) {
    case ParamKind::kQuantity:
      if (decl.told == Told::kDial) return "a time of the dial such as 8:30, " + range_text(decl);
      return range_text(decl);
    case ParamKind::kCount:
      return "a whole number " + range_text(decl);
    case ParamKind::kFlag:
      return "yes or no";
    case ParamKind::kChoice:
      return "one of: " + listed(decl.choices);
    case ParamKind::kText:
      return "a text";
    case ParamKind::kTexts:
      return "a list of texts";
    case ParamKind::kRecords:
      break;
  }
  return "a list of maps with " + listed(names_of(decl.fields));
}

Value standard_value(const ParamDecl& decl) {
  Value value = decl.standard;
  if (decl.kind == ParamKind::kChoice && !decl.choices.empty())
    value.text = decl.choices[static_cast<std::size_t>(value.number)];
  return value;
}

std::optional<Value> check_text(const ParamDecl& decl, const Written& written, Mistakes& mistakes) {
  switch (decl.kind) {
    case ParamKind::kQuantity:
      return check_quantity(decl, written, mistakes);
    case ParamKind::kCount:
      return check_count(decl, written, mistakes);
    case ParamKind::kFlag:
      return check_flag(decl, written, mistakes);
    case ParamKind::kChoice:
      return check_choice(decl, written, mistakes);
    case ParamKind::kText:
      break;
    case ParamKind::kTexts:
    case ParamKind::kRecords:
      mistakes.add(written.place, {labelled(written, "a list cannot be given as one text"),
                                   written.text, expectation(decl), "write it in the scene"});
      return std::nullopt;
  }
  Value value;
  value.text = written.text;
  return value;
}

std::optional<Value> check_value(const ParamDecl& decl, const YamlNode& node,
                                 const std::string& label, TreeReader& reader) {
  if (decl.kind == ParamKind::kTexts) return check_texts(node, label, reader);
  if (decl.kind == ParamKind::kRecords) return check_records(decl, node, label, reader);
  const bool any_text = decl.kind == ParamKind::kText && node.kind == YamlNode::kScalar;
  if (!any_text && !reader.is_scalar(node, label, expectation(decl))) return std::nullopt;
  std::optional<Value> value = check_text(decl, reader.written(node, label), reader.mistakes());
  if (!value) return std::nullopt;
  return as_written(std::move(*value), node);
}

}  // namespace sixty
