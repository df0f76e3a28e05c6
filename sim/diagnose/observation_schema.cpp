#include "sim/diagnose/observation_schema.hpp"

#include <set>

#include "sim/diagnose/circumstance.hpp"
#include "sim/diagnose/sign.hpp"
#include "sim/scene/schema_values.hpp"

namespace sixty::diagnose {
namespace {

using schema::Json;

Json names_of_signs(const SignBook& book) {
  std::set<std::string> names;
  for (const Sign& sign : book.all()) names.insert(sign.name);
  return schema::words({names.begin(), names.end()}, "What is noticed there.");
}

Json observation(const SignBook& book) {
  Json json;
  json["at"] = schema::text("A part, a line or zone, a room, a floor, or \"all KIND\".");
  json["sign"] = names_of_signs(book);
  json["answer"] = {{"description", "Whether it is so; yes if nothing is said."},
                    {"enum", {"yes", "no", "not looked at", true, false}}};
  json["about"] = schema::text("By about so much, in the sign's unit.");
  json["at_least"] = schema::text("By at least so much.");
  json["at_most"] = schema::text("By at most so much.");
  json["reads"] = schema::text("What an instrument shows.");
  json["some"] = schema::yes_or_no("Of a place with several parts: not all of them.");
  json["when"] = schema::text("The half day in which it was so, as Mon am.");
  json["checked"] = schema::yes_or_no("Looked for on purpose by somebody who knows how.");
  return schema::closed_object(std::move(json), {"at", "sign"});
}

/// By their names, or any of their other words: so any text, the names told.
Json circumstances(const CircumstanceBook& book, bool weather, const std::string& description) {
  std::string names;
  for (const std::string& name : book.names(weather)) names += (names.empty() ? "" : ", ") + name;
  return schema::text(description + names + ".");
}

Json known(const CircumstanceBook& book) {
  Json done;
  done["what"] = circumstances(book, false, "What was done: ");
  done["at"] = schema::text("Where; nothing: the whole installation.");
  done["ago"] = schema::text("How long ago, as 2 weeks.");
  done["by"] = schema::text("By whom.");
  Json json;
  json["built"] = schema::text("The year in which it was built.");
  json["age"] = schema::text("Or how old it is, as 94 years.");
  json["serviced"] = schema::text("When it was serviced last, as 18 months ago.");
  json["weather"] = schema::list_of(circumstances(book, true, "The weather of late: "));
  json["done"] = schema::list_of(schema::closed_object(std::move(done), {"what"}));
  return schema::closed_object(std::move(json), {});
}

}  // namespace

OtherFile observation_schema(const Registry& registry) {
  Diagnostics unheard;  // mistakes in the models' own files are told by whoever uses them
  Mistakes mistakes(unheard);
  const SignBook signs(registry, mistakes);
  const CircumstanceBook circumstances(registry.circumstances(), mistakes);
  Json json;
  json["observations"] = schema::text("The scene's name.");
  json["seen"] = schema::list_of(observation(signs));
  json["seen"]["minItems"] = 1;
  json["known"] = known(circumstances);
  return {"observations", schema::closed_object(std::move(json), {"observations", "seen"}).dump()};
}

}  // namespace sixty::diagnose
