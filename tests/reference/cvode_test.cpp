// One armature pulled in, from the closing of the key to the steady current: our integrator against
// CVODE (SUNDIALS, variable-order BDF) on the equations as sim/circuit/magnet.hpp states them,
// written down here a second time. Source of every expected value: CVODE, run here and now.
#include <cvode/cvode.h>
#include <gtest/gtest.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <cmath>
#include <functional>
#include <memory>

#include "tests/circuit/bench.hpp"

namespace sixty::reference {
namespace {

using circuit::Bench;
using circuit::Coil;
using circuit::What;

constexpr double kAgreement = 5e-4;
constexpr double kEmfV = 30, kSourceOhm = 0.8, kContactOhm = 0.03;
constexpr double kEndS = 0.15;

/// A relay with friction, a second spring half-way and iron that begins to saturate.
Coil relay() {
  Coil c;
  c.resistance_ohm = 150;
  c.magnet.turns = 5200;
  c.magnet.pole_area_m2 = 9e-5;
  c.magnet.residual_gap_m = 3e-4;
  c.magnet.iron_length_m = 0.12;
  c.magnet.saturation_t = 1.8;
  c.magnet.relative_permeability = 1500;
  c.armature = {true, 2e-3, 0, 9e-3, 2, 1500, 0.8e-3, 0.4, 500, 0.15};
  return c;
}

/// Variables: linkage, gap, speed; then the energies given by the source, lost as heat and done on
/// the armature by the pull.
enum Variable : sunindextype { kLinkage, kGap, kSpeed, kSource, kHeat, kWork, kVariables };

struct Relay {
  Coil coil = relay();
  bool moves = false;

  double flux_density(const double* y) const {
    return y[kLinkage] / (coil.magnet.turns * coil.magnet.pole_area_m2);
  }
  double current(const double* y) const {
    const circuit::Magnet& m = coil.magnet;
    const double mu0 = 4e-7 * std::acos(-1.0);
    const double b = flux_density(y);
    const double gaps = 2 * (y[kGap] + m.residual_gap_m) * b / mu0;
    const double iron = m.iron_length_m * b * m.saturation_t /
                        (m.relative_permeability * mu0 * (m.saturation_t - std::fabs(b)));
    return (gaps + iron) / m.turns;
  }
  double pull(const double* y) const {
    const double b = flux_density(y);
    return coil.magnet.pole_area_m2 * b * b / (4e-7 * std::acos(-1.0));
  }
  double load(const double* y) const {
    const circuit::Armature& a = coil.armature;
    const double second = a.second_preload_n + a.second_rate_n_per_m * (a.second_from_m - y[kGap]);
    return a.preload_n + a.rate_n_per_m * (a.stroke_m - y[kGap]) +
           (y[kGap] < a.second_from_m ? second : 0);
  }
  void rates(const double* y, double* f) const {
    const double i = current(y);
    const double ohm = coil.resistance_ohm + kSourceOhm + kContactOhm;
    const double net = load(y) + coil.armature.friction_n - pull(y);  // it closes all the way
    f[kLinkage] = kEmfV - ohm * i;
    f[kGap] = moves ? y[kSpeed] : 0;
    f[kSpeed] = moves ? net / coil.armature.mass_kg : 0;
    f[kSource] = kEmfV * i;
    f[kHeat] = ohm * i * i;
    f[kWork] = moves ? -pull(y) * y[kSpeed] : 0;
  }
};

/// CVODE on one relay. Each leg starts anew from where the last one ended.
class Cvode {
 public:
  Cvode() {
    SUNContext_Create(nullptr, &context_);
    y_ = N_VNew_Serial(kVariables, context_);
    tolerances_ = N_VNew_Serial(kVariables, context_);
    N_VConst(1e-13, tolerances_);
    N_VConst(0, y_);
    data()[kGap] = relay_.coil.armature.stroke_m;
  }
  ~Cvode() {
    N_VDestroy(y_);
    N_VDestroy(tolerances_);
    SUNContext_Free(&context_);
  }
  Cvode(const Cvode&) = delete;
  Cvode& operator=(const Cvode&) = delete;

  /// Goes on until `stop` rises or falls through 0, or to `until_s`. True when it was the former.
  bool go(double until_s, std::function<double(const Relay&, const double*)> stop) {
    stop_ = std::move(stop);
    void* solver = CVodeCreate(CV_BDF, context_);
    const SUNMatrix matrix = SUNDenseMatrix(kVariables, kVariables, context_);
    const SUNLinearSolver linear = SUNLinSol_Dense(y_, matrix, context_);
    int bad = CVodeInit(solver, rates, t_, y_);
    bad |= CVodeSVtolerances(solver, 1e-10, tolerances_);
    bad |= CVodeSetUserData(solver, this);
    bad |= CVodeSetLinearSolver(solver, linear, matrix);
    bad |= CVodeSetMaxNumSteps(solver, 1'000'000);
    bad |= CVodeSetStopTime(solver, until_s);
    if (stop_) bad |= CVodeRootInit(solver, 1, root);
    EXPECT_EQ(bad, CV_SUCCESS);
    const int end = CVode(solver, until_s, y_, &t_, CV_NORMAL);
    EXPECT_GE(end, 0);
    SUNLinSolFree(linear);
    SUNMatDestroy(matrix);
    CVodeFree(&solver);
    return end == CV_ROOT_RETURN;
  }
  Relay& relay() { return relay_; }
  double* data() { return N_VGetArrayPointer(y_); }
  double time_s() const { return t_; }

 private:
  static int rates(double, N_Vector y, N_Vector f, void* self) {
    static_cast<Cvode*>(self)->relay_.rates(N_VGetArrayPointer(y), N_VGetArrayPointer(f));
    return 0;
  }
  static int root(double, N_Vector y, double* value, void* self) {
    auto* cvode = static_cast<Cvode*>(self);
    *value = cvode->stop_(cvode->relay_, N_VGetArrayPointer(y));
    return 0;
  }

  SUNContext context_ = nullptr;
  N_Vector y_ = nullptr, tolerances_ = nullptr;
  double t_ = 0;
  Relay relay_;
  std::function<double(const Relay&, const double*)> stop_;
};

/// Where CVODE stood at an instant.
struct Moment {
  double t_s = 0, current_a = 0, speed_m_per_s = 0;
  double source_j = 0, heat_j = 0, work_j = 0;
};

Moment moment(Cvode& cvode) {
  const double* y = cvode.data();
  return {cvode.time_s(), cvode.relay().current(y), y[kSpeed], y[kSource], y[kHeat], y[kWork]};
}

/// To the start of the armature, through the meeting with the second spring, to the seat, to the
/// end.
struct PullIn {
  Moment starts, meets_spring, seats, end;
};

PullIn pull_in_by_cvode() {
  Cvode cvode;
  PullIn p;
  EXPECT_TRUE(cvode.go(kEndS, [](const Relay& r, const double* y) {
    return r.pull(y) - r.load(y) - r.coil.armature.friction_n;
  }));
  p.starts = moment(cvode);
  cvode.relay().moves = true;
  EXPECT_TRUE(cvode.go(kEndS, [](const Relay& r, const double* y) {
    return y[kGap] - r.coil.armature.second_from_m;
  }));
  p.meets_spring = moment(cvode);
  EXPECT_TRUE(cvode.go(kEndS, [](const Relay&, const double* y) { return y[kGap]; }));
  p.seats = moment(cvode);
  cvode.relay().moves = false;
  EXPECT_FALSE(cvode.go(kEndS, nullptr));
  p.end = moment(cvode);
  return p;
}

Bench bench() {
  Bench b;
  b.source("supply", "plus", "minus", kEmfV, kSourceOhm);
  b.contact("key", "plus", "top", kContactOhm);
  b.coil("relay", "top", "minus", relay());
  b.work(0, "key", true);
  return b;
}

void expect_close(double ours, double theirs, const char* what) {
  EXPECT_NEAR(ours, theirs, kAgreement * std::fabs(theirs)) << what;
}

class CvodeTest : public testing::Test {
 protected:
  const circuit::Located& event(What what) {
    static const std::vector<Bench::Happened> all = bench().events(kEndS);
    for (const Bench::Happened& h : all) {
      if (h.located.what == what) return h.located;
    }
    throw std::runtime_error("it did not happen");
  }
  PullIn cvode = pull_in_by_cvode();
};

TEST_F(CvodeTest, TheArmatureStartsAndSeatsAtTheSameInstantsCurrentsAndSpeeds) {
  expect_close(event(What::kStarts).t_s, cvode.starts.t_s, "starts, s");
  expect_close(event(What::kStarts).current_a, cvode.starts.current_a, "starts, A");
  expect_close(event(What::kSeats).t_s, cvode.seats.t_s, "seats, s");
  expect_close(event(What::kSeats).current_a, cvode.seats.current_a, "seats, A");
  expect_close(event(What::kSeats).speed_m_per_s, cvode.seats.speed_m_per_s, "seats, m/s");
}

TEST_F(CvodeTest, CurrentAndGapAgreeOnTheWay) {
  Bench b = bench();
  const Bench::Look look = b.at(cvode.meets_spring.t_s);
  expect_close(b.value(look, "relay.current"), cvode.meets_spring.current_a, "spring, A");
  expect_close(b.value(look, "relay.gap"), relay().armature.second_from_m, "spring, m");
  expect_close(b.value(look, "relay.speed"), cvode.meets_spring.speed_m_per_s, "spring, m/s");
}

TEST_F(CvodeTest, CurrentAndEnergiesAgreeWhenAllIsOver) {
  Bench b = bench();
  const Bench::Look look = b.at(kEndS);
  expect_close(b.value(look, "relay.current"), cvode.end.current_a, "A");
  expect_close(look.ledger.source_j, cvode.end.source_j, "delivered, J");
  expect_close(look.ledger.heat_j, cvode.end.heat_j, "heat, J");
  expect_close(look.ledger.work_j, cvode.end.work_j, "work, J");
  const circuit::Armature a = relay().armature;
  expect_close(look.ledger.impact_j, a.mass_kg / 2 * std::pow(cvode.seats.speed_m_per_s, 2),
               "impact, J");
  expect_close(look.ledger.friction_j, a.friction_n * a.stroke_m, "friction, J");
}

}  // namespace
}  // namespace sixty::reference
