#pragma once

#include <ostream>

namespace sixty {

/// A fault at its worst at one part of the technical school, and within what time it shows.
struct SchoolFault {
  const char* fault;
  const char* hand = "";  ///< what a hand does, with and without the fault
  const char* span = "12m";
};

inline void PrintTo(const SchoolFault& f, std::ostream* out) { *out << f.fault; }

// So that it rings while one waits.
inline constexpr const char* kPressed = "1m ring_key_2.hold 2 s";
inline constexpr const char* kRowBeforeSeven = "30 s tape.set_row 418";
inline constexpr const char* kRowBeforeEight = "30 s tape.set_row 474";
inline constexpr const char* kRowBeforeHalfPastNine = "30 s tape.set_row 573";
inline constexpr const char* kRowBeforeTenPast = "30 s tape.set_row 608";

/// All that fit there, each once. Against this supply a heavy tape drive only slows the stroke,
/// which is seen in readings after hours.
// NOLINTNEXTLINE: one row to a fault
inline constexpr SchoolFault kSchoolFaults[] = {
    {"F01@movement:1"},
    {"F02@movement:1"},
    {"F03@movement:1"},
    {"F04@arm_a:1"},
    {"F05@rewind:1"},
    {"F07@rewind:1"},
    {"F08@rewind:1"},
    {"F09@rewind:1"},
    {"F10@rewind:1"},
    {"F11@rewind:1"},
    {"F12@rewind:1"},
    {"F13@arm_a:1"},
    {"F14@arm_a:1"},
    {"F15@arm_a:1"},
    {"F16@arm_a:1"},
    {"F17@arm_a:1"},
    {"F18@minute_relay:1"},
    {"F19@minute_relay:1"},
    {"F20@minute_relay:1"},
    {"F21@minute_relay:1"},
    {"F22@supply:1"},
    {"F24@supply:1"},
    {"F25@supply:1"},
    {"F26@main_fuse:1"},
    {"F27@clock_office_run:1"},
    {"F27@supply:1"},
    {"F28@clock_office_run:1"},
    {"F30@clock_office:1"},
    {"F31@clock_office_run:1"},
    {"F32@clock_office:1"},
    {"F33@clock_office:1"},
    {"F34@clock_office:0.9"},
    {"F35@tape:1", kRowBeforeTenPast, "40m"},
    {"F36@tape:1", kRowBeforeHalfPastNine},
    {"F37@tape:1"},
    {"F38@tape:1"},
    {"F39@tape:1"},
    {"F40@week_wheel:1"},
    {"F41@bell_shop_1:1", kPressed},
    {"F42@bell_shop_1:1", kPressed},
    {"F43@bell_shop_1:1", kPressed},
    {"F44@clock_switch:1"},
    {"F45@step_all_key:1"},
    {"F46@movement:1"},
    {"F47@movement:1"},
    {"F48@movement:1"},
    {"F49@movement:1,from=3m"},
    {"F50@movement:1"},
    {"F51@rewind:1"},
    {"F52@rewind:1"},
    {"F54@rewind:1"},
    {"F55@arm_a:1"},
    {"F53@rewind:1"},
    {"F56@arm_a:1"},
    {"F57@arm_a:1"},
    {"F58@minute_relay:1"},
    {"F59@minute_relay:1"},
    {"F60@minute_relay:1"},
    {"F61@clock_office:1"},
    {"F62@clock_office:1"},
    {"F63@clock_office:1"},
    {"F64@clock_office:1"},
    {"F65@clock_office:1"},
    {"F66@bell_shop_1:1", kPressed},
    {"F67@bell_shop_1:1", kPressed},
    {"F68@bell_shop_1:1", kPressed},
    {"F69@bell_shop_1:1", kPressed},
    {"F70@tape:1"},
    {"F71@tape:1", kRowBeforeSeven},
    {"F72@tape:1", kRowBeforeSeven},
    {"F73@week_wheel:0.001", kRowBeforeEight},
    {"F74@week_wheel:1"},
    {"F75@week_wheel:1", kRowBeforeSeven},
    {"F76@clock_office_run:1"},
    {"F77@clock_staff_run:1"},
    {"F78@main_fuse:1"},
    {"F79@bell_fuse_2:1", kPressed},
    {"F80@step_all_key:1"},
    {"F81@clock_switch:1"},
    {"F82@clock_switch:1"},
    {"F89@second_floor_ballast:1"},
    {"F90@second_floor_ballast:1"},
    {"F91@arm_b:1,course=steady"},
    {"F92@clock_office_run:1,course=steady"},
};

}  // namespace sixty
