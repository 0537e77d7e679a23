// The commands: each reads what it needs, works, writes, and returns its exit status.
//
// All throw base::InputError for what the user got wrong; nothing is written then.
#pragma once

#include <functional>

#include "painter.hpp"

namespace stakewright::cli {

/// The exit status of the work, or that of bad input when it throws; what is wrong stands on
/// stderr.
int guarded(const std::function<int()>& work);

/// The whole of a program, from its words to its exit status.  Without a painter a command that
/// draws goes on as the program that has one (`become_draw_program`).
int command(int argc, char** argv, const Painter* painter);

/// `painter` is there when the options ask for a drawing.
int run(const Options& options, const Painter* painter);

int start(const Options& options);
int layout(const Options& options, const Painter* painter);
int tapes(const Options& options);
int form(const Options& options, const Painter* painter);
int check(const Options& options, const Painter* painter);
int carry(const Options& options, const Painter* painter);

}  // namespace stakewright::cli
