// The entry libFuzzer calls.  Built with -DSTAKEWRIGHT_FUZZ=ON only.
#include <array>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>

#include "readers.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const std::string_view text(reinterpret_cast<const char*>(data) + 1, size - 1);
  // The first byte chooses the reader.
  using namespace stakewright::fuzz;
  constexpr std::array readers{fault_of_job_reader, fault_of_readings_reader,
                               fault_of_length_reader, fault_of_form_reader};
  const std::string fault = readers[data[0] % readers.size()](text);
  if (!fault.empty()) {
    std::fprintf(stderr, "%s\n", fault.c_str());
    std::abort();
  }
  return 0;
}
