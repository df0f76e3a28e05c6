#pragma once

namespace sixty::instruments {

/// What shows a quantity while it goes on: told piece by piece, in order.
class Indicator {
 public:
  virtual ~Indicator() = default;
  /// The quantity goes straight from one value to another in so long; it may jump between pieces.
  virtual void follow(double before, double after, double seconds) = 0;
  /// So long it repeats what it has done for some seconds, and nothing new is shown.
  virtual void skip(double seconds) = 0;

  /// A value that was shown, and when, counted from the first piece. Units: s.
  struct Shown {
    double value = 0, at_s = 0;
  };
  struct Extremes {
    Shown last, least, most;
  };
  const Extremes& shown() const { return shown_; }
  /// Its tips lie the wrong way round for most of what it has shown; it can show that.
  virtual bool reads_backwards() const { return false; }
  /// What is read at the end.
  virtual double reading() const { return shown_.last.value; }

 protected:
  void show(double value);
  double now_s_ = 0;

 private:
  Extremes shown_;
  bool any_ = false;
};

}  // namespace sixty::instruments
