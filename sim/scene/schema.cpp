#include <utility>

#include "sim/scene/cause.hpp"
#include "sim/scene/loader.hpp"
#include "sim/scene/part_reader.hpp"
#include "sim/scene/schema_lines.hpp"
#include "sim/scene/schema_values.hpp"

namespace sixty {
namespace {

using schema::Json;
using schema::reference;

// `then` holds for maps in which `key` is `word`.
Json when(const std::string& key, const std::string& word, const std::string& then) {
  Json json;
  json["if"]["properties"][key]["const"] = word;
  json["if"]["required"] = {key};
  json["then"] = reference(then);
  return json;
}

std::vector<std::string> needed_links(const Declaration& declaration) {
  std::vector<std::string> names;
  for (const LinkDecl& link : declaration.taken)
    if (!link.optional) names.push_back(link.name);
  return names;
}

Json part_schema(const Registry::Entry& entry) {
  Json properties = schema::piece_properties(entry);
  properties["room"] = schema::room();
  const std::vector<std::string> links = needed_links(entry.declaration);
  std::vector<std::string> required = {"type"};
  if (!links.empty()) {
    required.push_back("connect");
    properties["connect"]["required"] = links;
  }
  Json json = schema::closed_object(std::move(properties), required);
  json["description"] = entry.declaration.title;
  return json;
}

Json sheet_schema(const Registry::Entry& entry) {
  Json values = Json::object();
  for (const ParamDecl& decl : entry.declaration.params)
    values[decl.name] = schema::sheet_value(decl);
  Json properties;
  properties["sheet"] = {{"type", "string"}, {"pattern", schema::kNamePattern}};
  properties["part"] = {{"const", entry.name}};
  properties["title"] = schema::text("What it describes.");
  properties["values"] = schema::closed_object(std::move(values), {});
  properties["notes"] = schema::text("Anything worth knowing.");
  return schema::closed_object(std::move(properties), {"sheet", "part", "title", "values"});
}

// A map of which the word under `key` decides what else it holds.
Json chosen_by(const std::string& key, const std::string& prefix, const Registry& registry) {
  Json json;
  json["type"] = "object";
  json["required"] = {key};
  json["properties"][key] = schema::words(part_types(registry), "Part type.");
  json["allOf"] = Json::array();
  for (const auto& [name, entry] : registry.entries())
    json["allOf"].push_back(when(key, name, prefix + name));
  if (json["allOf"].empty()) json.erase("allOf");
  return json;
}

Json parts_schema() {
  Json json = schema::named_map(reference("part"));
  json["description"] = "Each part's name and what it is.";
  json["minProperties"] = 1;
  json["maxProperties"] = kMostParts;
  return json;
}

Json wires_schema() {
  Json net;
  net["type"] = "array";
  net["items"] = {{"type", "string"}, {"pattern", schema::kReferencePattern}};
  net["minItems"] = 2;
  net["uniqueItems"] = true;
  Json json = schema::named_map(std::move(net));
  json["description"] = "Each net's name and the terminals that it joins.";
  return json;
}

Json script_schema() {
  Json line = {{"type", "string"}, {"pattern", "^at .*: "}};
  Json pair;
  pair["type"] = "object";
  pair["minProperties"] = 1;
  pair["maxProperties"] = 1;
  pair["propertyNames"] = {{"pattern", "^at "}};
  pair["additionalProperties"] = {{"type", "string"}};
  Json json;
  json["description"] = "What hands do, each as \"at TIME: part.command\" with its quantity.";
  json["type"] = "array";
  json["items"]["anyOf"] = Json::array({std::move(pair), std::move(line)});
  return json;
}

Json faults_schema() {
  Json json;
  json["description"] =
      "Faults put in, each as \"ID@PART[:SEVERITY][,from=TIME][,until=TIME][,course=COURSE]\".";
  json["type"] = "array";
  json["items"] = {{"type", "string"}, {"pattern", "^ *[^@, ]+@[A-Za-z][A-Za-z0-9_]*"}};
  return json;
}

Json texts_schema() { return {{"type", "array"}, {"items", {{"type", "string"}}}}; }

/// Of a change or an act: its ends may be of any kind.
Json end_schema(const char* of) {
  Json json;
  json["type"] = "object";
  json["required"] = {of};
  json["properties"][of] = {{"type", "string"}};
  return json;
}

Json fault_schema() {
  Json json;
  json["fault"] = schema::text("Its name.");
  json["number"] = schema::text("Its number, as in F13.");
  for (const char* key : {"title", "seen", "check", "remedy", "caution", "source", "course"})
    json[key] = {{"type", "string"}};
  json["how_often"]["enum"] = {"rare", "occasional", "frequent"};
  json["typical"] = schema::value(quantity_field("typical", "1", 0.01, 1, "Its usual severity."));
  for (const char* key : {"also", "cured_by", "eased_by"}) json[key] = texts_schema();
  json["comes_of"] = {{"type", "array"}, {"items", schema::words(cause_words(), "A cause.")}};
  json["where"] = {{"type", "object"}};
  json["changes"] = {{"type", "array"}, {"items", end_schema("value")}};
  for (const char* key : {"acts", "undone_by"})
    json[key] = {{"type", "array"}, {"items", end_schema("command")}};
  return schema::closed_object(std::move(json), {"fault", "number", "title", "how_often", "seen",
                                                 "check", "remedy", "source"});
}

Json faults_file_schema(const Registry& registry) {
  Json json;
  json["faults"] = schema::words(part_types(registry), "Part type that they strike.");
  json["entries"] = {{"type", "array"}, {"items", fault_schema()}};
  return schema::closed_object(std::move(json), {"faults", "entries"});
}

Json scene_properties() {
  const std::string time = "([T ][0-9]{1,2}:[0-9]{2}(:[0-9]{2}(\\.[0-9]+)?)?)?";
  Json json;
  json["scene"] = schema::text("Title of the scene.");
  json["start"] = {{"description", "Date and time at which it begins, 2026-01-05T00:00:00."},
                   {"type", "string"},
                   {"pattern", "^ *[0-9]{4}-[0-9]{2}-[0-9]{2}" + time + " *$"}};
  json["time_zone"] = {
      {"description",
       "Civil time there, as in TZ of IEEE 1003.1: \"CET-1CEST,M3.5.0,M10.5.0/3\". Dials "
       "are held against it; without it no clock goes forward or back."},
      {"type", "string"},
      {"pattern", "^[!-~]{1,64}$"}};
  json["seed"] = {{"description", "Which of all possible installations of this kind it is."},
                  {"type", {"integer", "string"}},
                  {"pattern", "^(0|[1-9][0-9]*)$"},
                  {"minimum", 0}};
  json["spread"] = schema::value(
      quantity_field("spread", "1", 0, 1, "Share of the data sheets' tolerances that is drawn."));
  json["rooms"] = schema::rooms();
  json["plan"] = schema::plan();
  json["parts"] = parts_schema();
  json["wires"] = wires_schema();
  json["lines"] = schema::named_map(reference("line"));
  json["script"] = script_schema();
  json["faults"] = faults_schema();
  json["notes"] = schema::text("Anything worth knowing.");
  return json;
}

/// Files with that key are of one kind, all others as `otherwise` says.
Json told_by(const std::string& key, const std::string& definition, Json otherwise) {
  Json json;
  json["if"]["required"] = {key};
  json["then"] = reference(definition);
  json["else"] = std::move(otherwise);
  return json;
}

}  // namespace

std::string scene_schema(const Registry& registry, const std::vector<OtherFile>& others) {
  Json definitions = schema::sheet_definitions();
  definitions["scene"] = schema::closed_object(scene_properties(), {"scene", "start", "parts"});
  definitions["part"] = chosen_by("type", "part_", registry);
  definitions["template"] = chosen_by("type", "template_", registry);
  schema::define_lines(part_types(registry), definitions);
  definitions["faults"] = faults_file_schema(registry);
  definitions["data_sheet"] = chosen_by("part", "sheet_", registry);
  for (const auto& [name, entry] : registry.entries()) {
    definitions["part_" + name] = part_schema(entry);
    definitions["template_" + name] = schema::line_template(entry);
    definitions["sheet_" + name] = sheet_schema(entry);
  }
  Json file = reference("scene");
  file = told_by("entries", "faults", std::move(file));
  file = told_by("sheet", "data_sheet", std::move(file));
  for (const OtherFile& other : others) {
    definitions[other.key] = Json::parse(other.schema);
    file = told_by(other.key, other.key, std::move(file));
  }
  Json json;
  json["$schema"] = "http://json-schema.org/draft-07/schema#";
  json["title"] = "Files that are read";
  json["type"] = "object";
  json.update(file);
  json["definitions"] = std::move(definitions);
  return json.dump(2) + "\n";
}

}  // namespace sixty
