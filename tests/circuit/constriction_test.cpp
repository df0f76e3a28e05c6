#include "sim/circuit/constriction.hpp"

#include <gtest/gtest.h>

namespace sixty::circuit {
namespace {

// CONT-02, CONT-03 (R. Holm, Electric Contacts, 4th ed. 1967; number derived).
TEST(ConstrictionTest, SilverSpotOfTenMicrometres) {
  EXPECT_NEAR(constriction_ohm(1.59e-8, 10e-6), 7.95e-4, 7.95e-4 * 1e-9);
}

// CONT-04, derived from Holm's formula: silver, 0.1 N, 5e8 Pa.
TEST(ConstrictionTest, ForceMakesTheSpot) {
  const ContactMetal silver{1.59e-8, 5e8};
  EXPECT_NEAR(spot_radius_m(silver, 0.1), 7.9788456080e-6, 1e-14);
  EXPECT_NEAR(constriction_ohm(silver, 0.1), 9.9638473917e-4, 1e-12);
}

TEST(ConstrictionTest, FourTimesTheForceHalvesTheResistance) {
  const ContactMetal silver;
  EXPECT_NEAR(constriction_ohm(silver, 0.4), constriction_ohm(silver, 0.1) / 2, 1e-15);
}

// CONT-07 (Kohlrausch and Holm; number derived): 0.1 V above 300 K.
TEST(ConstrictionTest, VoltageHeatsTheSpot) {
  EXPECT_NEAR(spot_temperature_k(0.1, 300), 438.70151173, 1e-6);
}

// CONT-08, published (Holm): silver melts at 0.37 V; 1220 K by the relation, 1235 K by thermometer.
TEST(ConstrictionTest, SilverMeltsAtItsMeltingVoltage) {
  EXPECT_NEAR(spot_temperature_k(0.37, 300), 1235, 0.15 * 1235);
}

}  // namespace
}  // namespace sixty::circuit
