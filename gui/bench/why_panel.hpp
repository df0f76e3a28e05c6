#pragma once

#include <span>
#include <string>

#include "gui/bench/asker.hpp"
#include "gui/bench/bench.hpp"
#include "gui/bench/layout.hpp"
#include "gui/bench/panel.hpp"

namespace sixty::gui {

/// What was asked, and the answer link by link: each can be gone to, and is lit on the drawing.
class WhyPanel {
 public:
  WhyPanel(std::shared_ptr<const Installation> installation,
           std::shared_ptr<const Installation> sound)
      : asker_(std::move(installation), std::move(sound)) {}
  /// Why what begins at a part about that time does, or does not.
  void ask(Bench& bench, PartId part, SimTime at);
  /// The same for a question that is ready.
  void ask(Bench& bench, const explain::Question& question);
  /// Where the run first goes otherwise than the twin.
  void compare(Bench& bench) { asker_.compare(bench.seen().log, bench.seen().reach); }
  void close();
  /// Takes what is known by now. Units: s.
  void follow(float frame_s);
  /// `room`: what it may lie over, in a corner where it hides least of some boxes.
  void show(Bench& bench, const sf::FloatRect& room, std::span<const sf::FloatRect> boxes);
  const Asker::Told& told() const { return told_; }
  /// It waits for an answer, or lights the links of one by turns.
  bool is_open() const { return open_; }
  /// It is open and looks for an answer.
  bool is_answering() const { return open_ && told_.answers; }
  bool is_lively() const { return told_.busy || (open_ && !told_.links.empty()); }
  std::vector<PartId> parts() const;
  std::size_t lit() const { return lit_; }

 private:
  void begin();
  void show_answer(const Installation& scene) const;
  void show_progress(const Installation& scene) const;
  void show_links(Bench& bench);

  Asker asker_;
  Asker::Told told_;
  std::string about_;
  bool open_ = false, held_ = false;  ///< held: one link was chosen, and stays lit
  std::size_t lit_ = 0;
  float shown_s_ = 0;  ///< how long the lit one has been
  Corner corner_ = Corner::kLowerLeft;
  Pixel size_;  ///< when it was shown last
};

}  // namespace sixty::gui
