#include "gui/keep/own_sheet.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <system_error>
#include <utility>

#include "gui/keep/part_spot.hpp"
#include "gui/keep/write.hpp"
#include "gui/keep/yaml_text.hpp"
#include "sim/base/file.hpp"
#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/scene/sheet.hpp"
#include "sim/scene/tree_reader.hpp"
#include "sim/scene/values.hpp"

namespace sixty::gui {
namespace {

namespace fs = std::filesystem;

std::string bound_text(double bound, const ParamDecl& decl) {
  const bool bare = decl.kind == ParamKind::kCount || decl.unit == "1" || decl.unit.empty();
  const std::string unit = decl.unit == "delta_K" ? "K" : decl.unit;
  return bare ? format_exact(bound) : format_exact(bound) + " " + unit;
}

/// Makes the two texts for one sheet.
class SheetMaker {
 public:
  SheetMaker(const OwnSheet& own, const std::string& scene_path, const Registry& registry,
             Diagnostics& diagnostics)
      : own_(own), scene_path_(scene_path), registry_(registry), mistakes_(diagnostics) {}

  std::optional<OwnSheetFiles> make(const std::string& scene_text) {
    const std::size_t before = mistakes_.count();
    const auto scene =
        load_scene_text(scene_text, scene_path_, registry_, {}, mistakes_.diagnostics());
    if (scene == nullptr) return std::nullopt;
    part_ = scene->find(own_.part);
    if (part_ == nullptr) {
      refuse("the scene has no such part", own_.part, "the name of a part", "choose another");
      return std::nullopt;
    }
    check_order();
    if (mistakes_.count() != before) return std::nullopt;
    OwnSheetFiles files;
    files.sheet_path = own_sheet_path(scene_path_, own_.name);
    files.sheet_text = sheet_text(files.sheet_path);
    files.scene_text = changed_scene(scene_text);
    return mistakes_.count() == before ? std::optional(files) : std::nullopt;
  }

 private:
  void refuse(const std::string& what, const std::string& found, const std::string& expected,
              const std::string& mend) {
    mistakes_.add({own_.part, 0, 0}, {what, found, expected, mend});
  }

  void check_order() {
    if (!is_own_sheet(own_.name) || !is_name(own_.name))
      refuse("an owner's sheet cannot be called so", own_.name,
             "own_, then letters, digits and underscores, 40 at most", "rename it");
    if (trimmed(own_.provenance.how).empty())
      refuse("it is not told how the values were found", "",
             "a few words, as in \"bridge, 20 degC\"", "write where they come from");
    if (own_.values.empty())
      refuse("no value has been changed", "", "at least one", "change a value first");
    for (const auto& [name, written] : own_.values) check_one(name, written);
    check_owner();
  }

  void check_one(const std::string& name, const std::string& written) {
    const std::vector<ParamDecl>& params = part_->kind->declaration.params;
    const std::size_t k = index_of(params, name);
    const Place place{own_.part, 0, 0};
    if (k == params.size()) {
      mistakes_.add_unknown(place, own_.part, "value", name, names_of(params));
    } else {
      check_text(params[k], {name, written, place}, mistakes_);
    }
  }

  /// A sheet of that name is changed only for the part that has it.
  void check_owner() {
    const std::string path = own_sheet_path(scene_path_, own_.name);
    std::error_code code;
    if (own_.name == part_->sheet || !fs::exists(path, code)) return;
    refuse("there is a sheet of that name already", path, "a name that is free",
           "choose another name");
  }

  std::string base_text() {
    if (part_->sheet.empty())
      return fmt::format("sheet: none\npart: {}\ntitle: none\nvalues: {{}}\n", part_->kind->name);
    for (const SheetText& sheet : part_->kind->sheets) {
      if (sheet.name == part_->sheet) return sheet.text;
    }
    return read_file_bounded(own_sheet_path(scene_path_, part_->sheet), kYamlMaxBytes,
                             mistakes_.diagnostics())
        .value_or("");
  }

  std::string source_text() const {
    std::string text = trimmed(own_.provenance.how);
    for (const std::string* more : {&own_.provenance.who, &own_.provenance.when}) {
      if (!trimmed(*more).empty()) text += "; " + trimmed(*more);
    }
    return in_quotes(text);
  }

  /// That of the sheet so far, if it holds the value; else all that the part takes.
  std::string range_of(const ParamDecl& decl, const std::string& written, const YamlText& base) {
    Diagnostics unread;
    Mistakes none(unread);
    const auto value = check_text(decl, {"", written, {}}, none);
    const YamlNode* range = base.find({"values", decl.name, "range"});
    if (range != nullptr && range->items.size() == 2 && value) {
      const auto least = check_text(decl, {"", range->items[0].scalar, {}}, none);
      const auto most = check_text(decl, {"", range->items[1].scalar, {}}, none);
      if (least && most && value->number >= least->number && value->number <= most->number)
        return fmt::format("[{}, {}]", range->items[0].scalar, range->items[1].scalar);
    }
    return fmt::format("[{}, {}]", bound_text(decl.least, decl), bound_text(decl.most, decl));
  }

  std::string entry_of(const std::string& name, const std::string& written, const YamlText& base) {
    const std::vector<ParamDecl>& params = part_->kind->declaration.params;
    const ParamDecl& decl = params[index_of(params, name)];
    const bool number = decl.kind == ParamKind::kQuantity || decl.kind == ParamKind::kCount;
    if (!number) return fmt::format("{{value: {}, source: {}}}", in_quotes(written), source_text());
    return fmt::format("{{value: {}, range: {}, source: {}}}", written,
                       range_of(decl, written, base), source_text());
  }

  std::string sheet_text(const std::string& path) {
    auto sheet = YamlText::read(base_text(), path, mistakes_.diagnostics());
    if (!sheet) return "";
    const std::string title =
        fmt::format("{}, as found by its owner", words_of_key(own_.part, true));
    bool done = sheet->set({}, "sheet", own_.name) && sheet->set({}, "title", in_quotes(title));
    for (const auto& [name, written] : own_.values)
      done = done && sheet->set({"values"}, name, entry_of(name, written, *sheet));
    if (!done)
      refuse("the sheet that the part has cannot be changed in place", part_->sheet,
             "each value on lines of its own, as {value: ..., source: ...}",
             "write the new sheet by hand");
    return sheet->text();
  }

  std::string changed_scene(const std::string& text) {
    auto scene = YamlText::read(text, scene_path_, mistakes_.diagnostics());
    const auto spot = scene ? find_spot(*scene, own_.part) : std::nullopt;
    if (!spot) {
      refuse("the scene has no text for this part alone", own_.part, "an entry of its own",
             "write the part down by itself");
      return text;
    }
    if (spot->counted && !own_.all_alike) {
      refuse("the scene writes this part together with others", own_.part, "a place of its own",
             "let all of them have the sheet, or give it a place of its own");
      return text;
    }
    if (take_sheet(*spot, *scene)) return scene->text();
    const YamlNode& node = *scene->find(spot->map);
    mistakes_.add({scene_path_, node.line, node.column},
                  {"this cannot be changed in place", own_.part, "values on one line each",
                   "write sheet: " + own_.name + " there by hand"});
    return text;
  }

  bool take_sheet(const PartSpot& spot, YamlText& scene) {
    const bool alone = spot.piece.empty();
    YamlText::Way holder = spot.map;
    if (!alone) {
      if (spot.piece == "each" && !unset(spot.map, scene)) return false;
      holder.push_back(spot.piece);
      if (scene.find(holder) == nullptr)
        return scene.set(spot.map, spot.piece, "{sheet: " + own_.name + "}") &&
               outdo_template(spot, holder, scene);
    }
    return unset(holder, scene) && scene.set(holder, "sheet", own_.name, "type") &&
           outdo_template(spot, holder, scene);
  }

  /// What is set there goes before the sheet, so it is taken out.
  bool unset(const YamlText::Way& map, YamlText& scene) {
    YamlText::Way set = map;
    set.push_back("set");
    for (const auto& value : own_.values) {
      const YamlNode* there = scene.find(set);
      if (there == nullptr || there->find(value.first) == nullptr) continue;
      const bool last = there->entries.size() == 1;
      if (!(last ? scene.remove(map, "set") : scene.remove(set, value.first))) return false;
    }
    return true;
  }

  /// What a line sets for all goes before the sheet too, so the place sets what it has.
  bool outdo_template(const PartSpot& spot, const YamlText::Way& holder, YamlText& scene) {
    const YamlNode* all = spot.piece.empty() ? nullptr : scene.find(spot.template_of);
    const YamlNode* set = all == nullptr ? nullptr : all->find("set");
    if (set == nullptr) return true;
    YamlText::Way own_set = holder;
    own_set.push_back("set");
    for (const auto& [name, written] : own_.values) {
      if (scene.find(spot.template_of)->find("set")->find(name) == nullptr) continue;
      const bool is_there = scene.find(own_set) != nullptr;
      if (!(is_there ? scene.set(own_set, name, written)
                     : scene.set(holder, "set", fmt::format("{{{}: {}}}", name, written))))
        return false;
    }
    return true;
  }

  const OwnSheet& own_;
  const std::string& scene_path_;
  const Registry& registry_;
  Mistakes mistakes_;
  const PartInstance* part_ = nullptr;
};

void report(const std::string& path, const std::string& error, Diagnostics& mistakes) {
  mistakes.add({path, 0, 0, "cannot be kept", error, "a place that may be written to",
                "choose another folder, or make room"});
}

/// Puts a file back as it was, or takes it away if it was not there.
void put_back(const std::string& path, const std::optional<std::string>& before) {
  std::string ignored;
  std::error_code code;
  if (before) {
    write_file_whole(path, *before, ignored);
  } else {
    fs::remove(path, code);
  }
}

}  // namespace

std::optional<OwnSheetFiles> with_own_sheet(const OwnSheet& own, const std::string& scene_text,
                                            const std::string& scene_path, const Registry& registry,
                                            Diagnostics& mistakes) {
  return SheetMaker(own, scene_path, registry, mistakes).make(scene_text);
}

bool save_own_sheet(const OwnSheetFiles& files, const std::string& scene_path,
                    const Registry& registry, Diagnostics& mistakes) {
  std::string error;
  std::error_code code;
  std::optional<std::string> before;
  if (fs::exists(files.sheet_path, code)) {
    before = read_file_bounded(files.sheet_path, kYamlMaxBytes, mistakes);
    if (!before) return false;
  }
  if (!make_folder(folder_of(files.sheet_path), error) ||
      !write_file_whole(files.sheet_path, files.sheet_text, error)) {
    report(files.sheet_path, error, mistakes);
    return false;
  }
  bool done = load_scene_text(files.scene_text, scene_path, registry, {}, mistakes) != nullptr;
  if (done && !write_file_whole(scene_path, files.scene_text, error)) {
    report(scene_path, error, mistakes);
    done = false;
  }
  if (!done) put_back(files.sheet_path, before);
  return done;
}

}  // namespace sixty::gui
