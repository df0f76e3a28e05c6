#include "sim/instruments/digital.hpp"

#include <algorithm>
#include <cmath>

namespace sixty::instruments {

double Digital::Window::take(double before, double slope, double seconds) {
  const double part = std::min(seconds, length_s - filled_s);
  sum += (before + slope * part / 2) * part;
  filled_s += part;
  return part;
}

void Digital::Window::close() {
  last = sum / filled_s;
  any = true;
  filled_s = sum = 0;
}

template <class Closed>
void Digital::fill(Window& window, double before, double after, double seconds,
                   const Closed& closed) {
  const double start_s = now_s_;
  const double slope = seconds > 0 ? (after - before) / seconds : 0;
  double done = 0;
  bool shown = false;
  while (seconds - done > 1e-12) {
    // What stays as it is for long fills window after window alike: the first and the last are
    // enough.
    const double left = seconds - done;
    if (slope == 0 && shown && left > 3 * window.length_s)
      done += (std::floor(left / window.length_s) - 2) * window.length_s;
    const double part = window.take(before + slope * done, slope, seconds - done);
    done += part;
    if (!window.full()) continue;
    shown = window.whole(part);
    window.close();
    now_s_ = start_s + done;
    closed(window.last);
  }
  now_s_ = start_s;
}

void Digital::follow(double before, double after, double seconds) {
  fill(reading_, before, after, seconds, [this](double reading) {
    least_reading_ = std::min(least_reading_, reading);
    most_reading_ = std::max(most_reading_, reading);
  });
  fill(peak_, before, after, seconds, [this](double peak) { show(peak); });
  now_s_ += seconds;
}

void Digital::skip(double seconds) { now_s_ += seconds; }

double Digital::reading() const {
  if (reading_.any) return reading_.last;
  return reading_.filled_s > 0 ? reading_.sum / reading_.filled_s : 0;
}

}  // namespace sixty::instruments
