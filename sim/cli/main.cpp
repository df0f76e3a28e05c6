#include "models/part_list.hpp"
#include "sim/cli/commands.hpp"
#include "sim/cli/interrupt.hpp"

int main(int argc, char** argv) {
  sixty::cli::watch_for_interrupts();
  return sixty::cli::run_program({argv + 1, argv + argc}, sixty::models::registry());
}
