#pragma once

#include <string>
#include <vector>

#include "gui/bench/panel.hpp"
#include "gui/keep/form.hpp"
#include "sim/part/registry.hpp"

namespace sixty::gui {

/// A form to be filled in: what it asks for, and the scene that it becomes.
class FormPanel {
 public:
  /// The registry must outlive the panel.
  FormPanel(Form form, const Registry& registry);

  /// What the window is to do.
  struct Wish {
    std::string open;  ///< this file, which has just been written; empty: none
    bool close = false;
  };
  /// A new scene, as the form is offered.
  void begin_new();
  /// The scene of a file, if this form has made it. Otherwise it is said in the panel why not, and
  /// what was filled in stays.
  void begin_with(const std::string& path);
  /// `on_bench`: file of the scene that is there. Order: within a frame of the panels.
  Wish show(const sf::FloatRect& box, ImFont* heading, const std::string& on_bench);
  const FormEntry& filled() const { return filled_; }
  /// Why the file tried last was not read or written; empty: it was.
  const std::vector<Diagnostic>& refused() const { return refused_; }

 private:
  void show_fields(const FormGroup& group, FormEntry& entry);
  void show_row(const FormGroup& group, FormEntry& entry);
  void show_times(const FormField& field, FormEntry& entry);
  void show_group(const FormGroup& group, FormEntry& holder);
  void show_table(const FormGroup& group, std::vector<FormEntry>& entries);
  void show_blocks(const FormGroup& group, std::vector<FormEntry>& entries);
  void show_input(const FormField& field, std::string& words);
  void show_names(const FormField& field, std::string& words);
  void show_writing(Wish& wish);
  void look_through();
  bool write();

  ImFont* heading_ = nullptr;  ///< of this frame
  Form form_;
  const Registry& registry_;
  FormEntry filled_;
  std::string path_;    ///< to be written
  std::string opened_;  ///< the scene that is changed; empty: a new one is made
  bool changed_ = true;
  std::vector<Diagnostic> told_, refused_;
};

}  // namespace sixty::gui
