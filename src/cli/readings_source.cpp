#include "readings_source.hpp"

#include "draw_program.hpp"
#include "stakewright/job/file.hpp"

namespace stakewright::cli {

job::ReadingRows reading_rows_of(const Options& options, const job::Job& job) {
  const std::string& path = options.readings;
  if (job::is_pdf_file(path))
    return job::reading_rows_from_text(output_of_draw_program({"readings", options.job, path}),
                                       path, job);
  return job::read_reading_rows(path, job);
}

}  // namespace stakewright::cli
