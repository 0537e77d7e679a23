// Promises of ours that hold in release as well, because going on without them would read past the
// end of something.  A broken promise that only makes a figure wrong is an assert.
#pragma once

#include <stdexcept>

namespace stakewright::base {

/// Throws std::logic_error, naming the promise, when it is not kept.
inline void promise(bool kept, const char* what) {
  if (!kept) throw std::logic_error(what);
}

}  // namespace stakewright::base
