// The command `stakewright`.  What is drawn is left to the program beside it.
#include "commands.hpp"

int main(int argc, char** argv) { return stakewright::cli::command(argc, argv, nullptr); }
