#include "sim/cli/param_text.hpp"

#include <fmt/format.h>

#include "sim/base/units.hpp"

namespace sixty::cli {
namespace {

std::string number_text(const ParamDecl& param, double number) {
  return param.kind == ParamKind::kQuantity ? format_quantity(number, param.unit)
                                            : format_exact(number);
}

std::string choices_text(const std::vector<std::string>& choices) {
  std::string text;
  for (std::size_t i = 0; i < choices.size(); ++i) {
    if (i > 0) text += i + 1 == choices.size() ? " or " : ", ";
    text += choices[i];
  }
  return text;
}

std::string choice_text(const ParamDecl& param) {
  const auto index = static_cast<std::size_t>(param.standard.number);
  return index < param.choices.size() ? param.choices[index] : "";
}

}  // namespace

std::string kind_text(ParamKind kind) {
  static const char* const kTexts[] = {"quantity", "whole number",  "yes or no",      "text",
                                       "choice",   "list of texts", "list of records"};
  return kTexts[static_cast<std::size_t>(kind)];
}

std::string bounds_text(const ParamDecl& param) {
  if (param.kind == ParamKind::kChoice) return choices_text(param.choices);
  if (param.kind != ParamKind::kQuantity && param.kind != ParamKind::kCount) return "";
  const std::string text =
      number_text(param, param.least) + " to " + number_text(param, param.most);
  return param.step > 0 ? text + " in steps of " + number_text(param, param.step) : text;
}

// A number outside its own bounds stands for none at all.
std::string default_text(const ParamDecl& param) {
  if (param.required) return "";
  if (param.kind == ParamKind::kFlag) return param.standard.number != 0 ? "yes" : "no";
  if (param.kind == ParamKind::kText) return fmt::format("\"{}\"", param.standard.text);
  if (param.kind == ParamKind::kChoice) return choice_text(param);
  if (param.kind == ParamKind::kTexts || param.kind == ParamKind::kRecords) return "";
  if (param.standard.number < param.least || param.standard.number > param.most) return "";
  return number_text(param, param.standard.number);
}

}  // namespace sixty::cli
