#pragma once

#include "sim/instruments/indicator.hpp"

namespace sixty::instruments {

/// Digits of a digital meter: the mean over each tenth of a second, five periods of 50 Hz, so that
/// hum cancels; its least and most are those of means over a millisecond, kept by themselves.
/// Common practice, no source.
class Digital final : public Indicator {
 public:
  static constexpr double kReading_s = 0.1;
  static constexpr double kPeak_s = 0.001;

  void follow(double before, double after, double seconds) override;
  void skip(double seconds) override;
  /// The digits' last mean; within the first tenth of a second, the one so far.
  double reading() const override;
  bool reads_backwards() const override { return -least_reading_ > most_reading_; }

 private:
  /// Sum over a window that is not yet full.
  struct Window {
    double length_s = 0, filled_s = 0, sum = 0, last = 0;
    bool any = false;
    /// Takes what fits of a straight piece. Returns how long that was.
    double take(double before, double slope, double seconds);
    /// All of it is of one piece, which was so long.
    bool whole(double part) const { return part >= length_s * (1 - 1e-9); }
    bool full() const { return filled_s >= length_s * (1 - 1e-9); }
    void close();
  };
  template <class Closed>
  void fill(Window& window, double before, double after, double seconds, const Closed& closed);

  double least_reading_ = 0, most_reading_ = 0;
  Window reading_{kReading_s};
  Window peak_{kPeak_s};
};

}  // namespace sixty::instruments
