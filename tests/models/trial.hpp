#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/run/session.hpp"
#include "sim/scene/loader.hpp"

namespace sixty {

/// A scene written in a test, run, and what happened in it.
class Trial : private TraceSink {
 public:
  /// `changes`: as with --set on the command line. Errors: fails the test; is then not `sound`.
  /// Beside all parts there is `weather`, see weather.hpp.
  explicit Trial(const std::string& yaml, const std::vector<std::string>& changes = {},
                 const Session::Options& options = {});
  ~Trial() override;

  bool sound() const { return session_ != nullptr; }
  void run_to(double seconds);
  /// "part.reading" now.
  double read(const std::string& name);
  Session& session() { return *session_; }

  struct Needed {
    std::string what;
    double measured = 0, needed = 0;
    bool met = false;
  };
  struct Happened {
    double at_s = 0;
    std::string part, kind;
    double volts = 0, needed_v = 0, current_a = 0;
    bool acted = true;
    std::vector<Needed> conditions = {};
  };
  const std::vector<Happened>& events() const { return events_; }
  /// First event of a kind not before a time. Units: s.
  std::optional<double> when(const std::string& part, const std::string& kind,
                             double from_s = 0) const;
  std::size_t count(const std::string& part, const std::string& kind) const;

 private:
  void record(const TraceRecord& record) override;

  std::unique_ptr<Session> session_;
  std::vector<Happened> events_;
};

/// Mistakes found in a scene, one text; empty if there are none.
std::string mistakes_of(const std::string& yaml, const std::vector<std::string>& changes = {});

}  // namespace sixty
