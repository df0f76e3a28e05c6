#pragma once

/// Texts of --help that are more than one line.
namespace sixty::cli {

inline constexpr const char* kProgramHelp =
    "sixtybeats: simulates electromechanical master-clock installations, event by event.";

inline constexpr const char* kProgramFooter = R"(Examples:
  sixtybeats run scenes/bench-minimal.yaml --for 7d
  sixtybeats events scenes/bench-minimal.yaml --from "Mon 08:00" --to "Mon 08:05"
  sixtybeats check scenes/*.yaml
  sixtybeats parts

A TIME is "Mon 10:15:05.02", "10:15", "2026-01-05T10:15" or a duration from the start of the
scene; a DURATION is "7d", "1h30m" or "2m35.05s"; a QUANTITY is a number with its unit, "24 V".

Exit codes: 0 all went well, 1 the run failed, 2 bad input (nothing was run), 3 something could
not be written, 130 stopped by Ctrl-C (the report covers what was run until then).)";

inline constexpr const char* kRunFooter = R"(Examples:
  sixtybeats run scenes/bench-minimal.yaml --for 7d
  sixtybeats run scenes/bench-minimal.yaml --until "Fri 16:30" --json
  sixtybeats run SCENE --set "PART.VALUE=21 V" --do "Mon 10:15 PART.COMMAND"
  sixtybeats run SCENE --fault "F13@PART:0.6, from=Mon 10:00, course=damper than 70 %"
  sixtybeats run SCENE --for 2s --trace trial.csv --signals "PART.*" --sample 50us
  sixtybeats run SCENE --for 1h --trace hour.vcd --signals PART.READING,PART.READING

A trace holds every event, with the reasons where a part gives them, and up to ten million samples
of the signals; each column of these tells its unit. It is written whole, at the
end; Ctrl-C ends the run early, with the report and the trace so far and exit code 130.)";

inline constexpr const char* kEventsFooter = R"(Examples:
  sixtybeats events scenes/bench-minimal.yaml --to 2m
  sixtybeats events SCENE --from "Mon 08:00" --to "Mon 08:05" --part PART
  sixtybeats events SCENE --kind held --to 7d
  sixtybeats events SCENE --to 1m --full --json

Each line begins with the event's address, KIND PART @ TIME; what was measured follows, then the
event that caused it. --full adds events that change nothing, and what each event needed.)";

inline constexpr const char* kCheckFooter = R"(Examples:
  sixtybeats check scenes/bench-minimal.yaml
  sixtybeats check scenes/*.yaml && echo "all are sound"

All mistakes of all files are shown, each with its line, what was expected and how to mend it.)";

inline constexpr const char* kPartsFooter = R"(Examples:
  sixtybeats parts
  sixtybeats parts PART
  sixtybeats parts --json)";

inline constexpr const char* kCompareFooter = R"(Examples:
  sixtybeats compare scenes/technical-school.yaml --fault F28@clock_104_run:1
  sixtybeats compare SCENE --fault "F44@PART, from=Tue 09:00" --for 7d --json

The same scene without its faults is run beside it. What is said first is the first thing that
went otherwise, and what is behind it; then all that followed.)";

inline constexpr const char* kDiagnoseFooter = R"(Examples:
  sixtybeats diagnose scenes/corner-school.yaml OBSERVATIONS.yaml
  sixtybeats diagnose scenes/corner-school.yaml OBSERVATIONS.yaml --html report.html
  sixtybeats diagnose scenes/corner-school.yaml --self-test 100
  sixtybeats diagnose scenes/corner-school.yaml --self-test 100 --variant

Everything that may be the matter is simulated for three days in eight installations of the same
make, whose parts stray by a fifth; what was noticed is held against that.
Cases of --variant and --calibration come from installations with other laws of friction, film and
swing, other times of day and parts that stray farther; what they are held against stays the same.
The page of --html is whole in itself: ranking, plan of the installation with the suspects marked,
and the next checks with their cautions.)";

inline constexpr const char* kObserveFooter = R"(Examples:
  sixtybeats observe scenes/corner-school.yaml --fault F13@arm_b:0.6 --seed 3
  sixtybeats observe SCENE --fault F28@PART --report-noise heavy --out reports.yaml

The parts are those of another installation of the same make; --seed chooses it, and the people.)";

inline constexpr const char* kWhyFooter = R"(Examples:
  sixtybeats why scenes/bench-minimal.yaml "starts hall_clock @ Mon 10:15:35"
  sixtybeats why scenes/technical-school.yaml "ring zone-2 @ Mon 09:30"
  sixtybeats why SCENE --fault F13@PART:0.75 "starts PART @ Mon 10:15" --json

KIND PART @ TIME is an event as sixtybeats events lists it, or a word that people use: ring, step,
pull, drop, blow, tick, wind, close. PART may be what several have in common: a zone, a loop, a
room. A time with seconds means half a minute about it, without them that minute. Of what happened
its causes are told, the first one first, and what is other than in the same scene without faults.
Of what did not happen, though it does there, it is told what was otherwise, down to the part that
is.)";

inline constexpr const char* kLessonFooter = R"(Examples:
  sixtybeats lesson play scenes/lessons/01-what-a-minute-does.yaml
  sixtybeats lesson play scenes/lessons/*.yaml --language de

Each question is answered as the run has it, each task as the lesson's model answer says, and all
that its words claim is held against the run. Exit code 2 where the run does not bear it out.)";

inline constexpr const char* kHuntFooter = R"(Examples:
  sixtybeats hunt scenes/bench-minimal.yaml --level subtle --seed 7
  sixtybeats hunt scenes/bench-minimal.yaml --level two --json

The same seed hides the same fault, so that a class gets the same case; in the window it is hunted
by hand (F4). Here the program hunts it: each check, what it found and what it was worth, the work
at parts and the proof, then the score. It needs the library of runs that diagnose needs, and finds
or makes it.)";

inline constexpr const char* kLearnersFooter = R"(Examples:
  sixtybeats learners
  sixtybeats learners --csv > class.csv
  sixtybeats learners --html class.html --data /media/class
  sixtybeats learners --forget "Ann B."

What the window keeps of each learner is one small file in the folder sixtybeats/learners of
$XDG_DATA_HOME, or of .local/share in the home folder. Nothing leaves the machine.)";

inline constexpr const char* kMeasureFooter = R"(Examples:
  sixtybeats measure scenes/bench-minimal.yaml --meter V:hall_clock
    --during "Mon 08:00:34..Mon 08:00:38"
  sixtybeats measure SCENE --meter A:PART.TERMINAL,as=needle --during "Mon 08:00..Mon 08:05"
  sixtybeats measure SCENE --meter record:A:PART --meter record:PART.gap
    --during "Mon 08:00:35..Mon 08:00:35.2" --sample 50us

KIND and WHERE:
  V:PART, V:PART.PAIR, V:PART.TERMINAL..PART.TERMINAL   volts between two terminals
  A:PART.TERMINAL    amperes into it, what leads there led through the meter;
                     with two terminals, laid across them
  ohm:WHERE          resistance at the end of --during; the circuit must be dead
  record:V:WHERE, record:A:WHERE, record:PART.READING   a recorder's two channels
  listen:PART        when something of it moves
  temperature:PART   contact thermometer
  beat:PART          tick, tock, rate and arc of an escapement
  tally:PART[.KIND]  how often it did something
A meter takes ,as=needle or ,as=digital and ,range=QUANTITY; beat takes ,beats=NUMBER of an hour.
All are laid on together, and the circuit feels them.)";

inline constexpr const char* kFaultsFooter = R"(Examples:
  sixtybeats faults
  sixtybeats faults scenes/technical-school.yaml
  sixtybeats faults --about F13
  sixtybeats faults --json)";

inline constexpr const char* kSchemaFooter = R"(Example:
  sixtybeats schema > scene.schema.json

An editor that knows JSON Schema then completes and checks scenes while they are typed.)";

}  // namespace sixty::cli
