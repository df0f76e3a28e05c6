#include "gui/lesson/coach.hpp"

#include <utility>

#include "sim/base/text.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {

using practice::Hunt;

Coach::Coach(const Registry& registry, std::shared_ptr<const diagnose::Library> library)
    : checks_(registry, mistakes_), library_(std::move(library)) {}

Coach::Told Coach::told() const {
  const std::lock_guard lock(mutex_);
  return told_;
}

std::string Coach::truth_text(const practice::Hidden& hidden) const {
  const diagnose::Suspect& suspect = library_->suspects[hidden.suspect];
  return tr(suspect.fault->title) + ", " + library_->installation->parts[suspect.part].name;
}

void Coach::hide(practice::Level level, std::uint64_t seed) {
  clerk_.give(++tasks_, [this, level, seed] {
    auto hidden = practice::draw_case(*library_, level, seed);
    const std::uint64_t number = told().hunt + 1;
    {
      const std::lock_guard lock(mutex_);
      told_ = {};
      if (!hidden) told_.failure = tr("No fault of this level shows anything in this scene.");
    }
    if (!hidden) return;
    {
      const std::lock_guard lock(mutex_);
      told_.hunt = number;
      told_.level = level;
      told_.seed = seed;
      told_.hidden = hidden->hidden;
      for (const diagnose::Observation& one : hidden->reports)
        told_.reports.push_back(diagnose::sentence(one, library_->signs));
    }
    hunt_ = std::make_unique<Hunt>(*library_, checks_, std::move(*hidden));
    publish();
  });
}

void Coach::publish() {
  std::vector<diagnose::Proposal> checks = hunt_->checks();
  const std::lock_guard lock(mutex_);
  told_.deeds = hunt_->deeds();
  told_.checks = std::move(checks);
  told_.over = hunt_->is_over();
}

void Coach::check(diagnose::Proposal proposal) {
  clerk_.give(++tasks_, [this, proposal = std::move(proposal)] {
    hunt_->check(proposal);
    publish();
  });
}

void Coach::mend(std::size_t suspect) {
  clerk_.give(++tasks_, [this, suspect] {
    hunt_->mend(suspect);
    publish();
  });
}

void Coach::prove() {
  clerk_.give(++tasks_, [this] {
    hunt_->prove();
    publish();
    if (hunt_->is_over()) tell_end();
  });
}

void Coach::end() {
  clerk_.give(++tasks_, [this] { tell_end(); });
}

void Coach::tell_end() {
  Hunt best(*library_, checks_, hunt_->hidden());
  practice::play_best(best);
  const auto links = practice::why_of(*library_, hunt_->hidden().hidden);
  const std::lock_guard lock(mutex_);
  told_.score = hunt_->score();
  told_.best = best.score();
  told_.best_deeds = best.deeds();
  told_.truths.clear();
  told_.why.clear();
  for (const explain::Link& link : links) told_.why.push_back(words_of_key(link.text));
  for (const practice::Hidden& hidden : told_.hidden) told_.truths.push_back(truth_text(hidden));
}

}  // namespace sixty::gui
