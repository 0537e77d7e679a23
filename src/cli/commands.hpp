// The commands: each reads what it needs, works, writes, and returns its exit status.
//
// All throw base::InputError for what the user got wrong; nothing is written then.
#pragma once

#include "options.hpp"

namespace stakewright::cli {

int run(const Options& options);

int start(const Options& options);
int layout(const Options& options);
int tapes(const Options& options);
int form(const Options& options);
int check(const Options& options);
int carry(const Options& options);

}  // namespace stakewright::cli
