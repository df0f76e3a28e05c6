#include "sim/scene/settle.hpp"

#include <algorithm>
#include <filesystem>
#include <system_error>
#include <utility>

#include "sim/base/hash.hpp"
#include "sim/base/rng.hpp"
#include "sim/base/text.hpp"
#include "sim/scene/yaml_document.hpp"

namespace sixty {
namespace {

// What is made to within a hundredth is so in any specimen, a pendulum's rod for one.
constexpr double kMadeClosely = 0.01;
// Of what is not: as warmth, moisture and oil have it from week to week (judgement).
constexpr double kWeekly = 0.01;

std::uint32_t folded(std::uint64_t hash) { return static_cast<std::uint32_t>(hash ^ (hash >> 32)); }

double weekly_stray(const Specimen& specimen, const ParamDecl& decl, const std::string& part,
                    std::uint64_t seed) {
  if (specimen.week == 0) return 0;
  const std::uint64_t who = mix(hash_text(part), specimen.week);
  const double u = uniform_draw(seed, who, folded(hash_text(decl.name)), 1 + specimen.number);
  return kWeekly * (2 * u - 1);
}

double drawn(const ParamDecl& decl, const SheetValue& sheet, const std::string& part,
             const Draft& draft) {
  const std::uint64_t specimen = draft.specimen ? 1 + draft.specimen->number : 0;
  const double u =
      uniform_draw(draft.seed, hash_text(part), folded(hash_text(decl.name)), specimen);
  const bool strays =
      draft.specimen && sheet.tolerance.relative && sheet.tolerance.size > kMadeClosely;
  double most = sheet.tolerance.size * draft.spread;
  if (strays) most = std::max(most, draft.specimen->least_tolerance);
  double stray = most * (2 * u - 1);
  if (strays) stray += weekly_stray(*draft.specimen, decl, part, draft.seed);
  const double number = sheet.value.number;
  return clamped(decl, sheet.tolerance.relative ? number * (1 + stray) : number + stray);
}

void report_missing(const ParamDecl& decl, const DraftPart& part, Mistakes& mistakes) {
  std::vector<std::string> sheets = names_of(part.kind->sheets);
  const std::string setting = "set: {" + decl.name + ": ...}";
  mistakes.add(
      part.place,
      {part.name + ": \"" + decl.name + "\" has no value", "", expectation(decl),
       sheets.empty() ? "add " + setting
                      : "add " + setting + " or take a data sheet (" + listed(sheets) + ")"});
}

void settle(const ParamDecl& decl, const DraftPart& part, const Sheet* sheet, const Draft& draft,
            SettledPart& settled) {
  const auto given = part.given.find(decl.name);
  if (given != part.given.end()) {
    settled.values[decl.name] = given->second.value;
    settled.origins[decl.name] = given->second.written;
    return;
  }
  const auto in_sheet = sheet == nullptr ? std::map<std::string, SheetValue>::const_iterator()
                                         : sheet->values.find(decl.name);
  if (sheet == nullptr || in_sheet == sheet->values.end()) {
    if (!decl.required) settled.values[decl.name] = standard_value(decl);
    return;
  }
  Value value = in_sheet->second.value;
  if (in_sheet->second.tolerance.size > 0)
    value.number = drawn(decl, in_sheet->second, part.name, draft);
  settled.values[decl.name] = std::move(value);
  settled.origins[decl.name] = in_sheet->second.written;
}

}  // namespace

Sheet SheetShelf::read(const std::string& part, const SheetText& text) {
  const std::optional<YamlNode> root = parse_yaml(text.text, text.path, mistakes_.diagnostics());
  return root ? read_sheet(*root, text.path, part, registry_, mistakes_) : Sheet{};
}

const Sheet* SheetShelf::find_own(const Registry::Entry& kind, const std::string& name,
                                  const Place& place) {
  const auto key = std::make_pair(kind.name, name);
  const auto it = read_.find(key);
  if (it != read_.end()) return &it->second;
  const std::string path = own_sheet_path(scene_, name);
  std::error_code code;
  if (!is_name(name) || !std::filesystem::exists(path, code)) {
    mistakes_.add(place,
                  {"there is no data sheet \"" + printable(name, 60) + "\" of the owner's", name,
                   "a file " + path, "put the sheet there, or take one of the part's own"});
    return nullptr;
  }
  const std::optional<YamlNode> root = read_yaml(path, mistakes_.diagnostics());
  Sheet sheet = root ? read_sheet(*root, path, kind.name, registry_, mistakes_) : Sheet{};
  return &read_.emplace(key, std::move(sheet)).first->second;
}

const Sheet* SheetShelf::find(const Registry::Entry& kind, const std::string& name,
                              const Place& place) {
  if (is_own_sheet(name)) return find_own(kind, name, place);
  const std::size_t i = index_of(kind.sheets, name);
  if (i == kind.sheets.size()) {
    mistakes_.add_unknown(place, kind.name, "data sheet", name, names_of(kind.sheets));
    return nullptr;
  }
  const auto key = std::make_pair(kind.name, name);
  auto it = read_.find(key);
  if (it == read_.end()) it = read_.emplace(key, read(kind.name, kind.sheets[i])).first;
  return &it->second;
}

SettledPart settle_values(const DraftPart& part, const Draft& draft, SheetShelf& shelf,
                          Mistakes& mistakes) {
  SettledPart settled;
  const Sheet* sheet = nullptr;
  if (!part.sheet.empty()) sheet = shelf.find(*part.kind, part.sheet, part.sheet_place);
  const bool sheet_sound = part.sheet.empty() || (sheet != nullptr && sheet->sound);
  settled.sound = part.values_sound && sheet_sound;
  for (const ParamDecl& decl : part.kind->declaration.params) {
    settle(decl, part, sheet, draft, settled);
    if (settled.values.count(decl.name) != 0) continue;
    // A value that was given wrongly, or lies in a sheet with mistakes, has been reported already.
    if (part.values_sound && sheet_sound) report_missing(decl, part, mistakes);
    settled.sound = false;
  }
  return settled;
}

}  // namespace sixty
