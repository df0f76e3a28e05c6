#pragma once

#include <map>
#include <string>
#include <vector>

#include "sim/part/part.hpp"

namespace sixty {

/// A data sheet as text, embedded in the program.
struct SheetText {
  std::string name;
  std::string text;
  std::string path;  ///< for messages
};

/// All part types, by name, with their declarations and data sheets.
class Registry {
 public:
  struct Entry {
    std::string name;
    const PartType* type = nullptr;
    Declaration declaration;
    std::vector<SheetText> sheets;
    std::vector<SheetText> faults;  ///< at most one: what can strike it
    std::vector<SheetText> signs;   ///< at most one: what can be noticed at it
    std::string folder;
  };
  void add(const std::string& name, const PartType& type, const std::string& folder);
  void add_sheet(const std::string& part, std::string name, std::string text, std::string path);
  void add_faults(const std::string& part, std::string text, std::string path);
  void add_signs(const std::string& part, std::string text, std::string path);
  /// Checks that a technician makes, of whatever part.
  void set_checks(std::string text, std::string path);
  const std::vector<SheetText>& checks() const { return checks_; }  ///< at most one
  /// What may be known of an installation beforehand, and what it speaks for.
  void set_circumstances(std::string text, std::string path);
  const std::vector<SheetText>& circumstances() const { return circumstances_; }
  /// nullptr if there is none of that name.
  const Entry* find(const std::string& name) const;
  const std::map<std::string, Entry>& entries() const { return entries_; }

 private:
  std::map<std::string, Entry> entries_;
  std::vector<SheetText> checks_;
  std::vector<SheetText> circumstances_;  ///< at most one
};

}  // namespace sixty
