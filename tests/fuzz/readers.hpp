// Every reader of what a user writes, and what must hold whatever it is given.
#pragma once

#include <string>
#include <string_view>

namespace stakewright::fuzz {

/// Each reader takes the bytes and returns what is wrong with its behavior, or nothing: it may
/// take the input or throw InputError with a short printable line, and what it takes is sane.
/// A crash or any other exception is for the caller's run to show.
std::string fault_of_job_reader(std::string_view text);
std::string fault_of_readings_reader(std::string_view text);
std::string fault_of_length_reader(std::string_view text);
std::string fault_of_form_reader(std::string_view bytes);

/// Good texts to begin from.
std::string good_job();
std::string good_readings();

/// A filled form of that job, packed as `form` writes it and plain as some programs save it.
std::string good_form();
std::string good_plain_form();

}  // namespace stakewright::fuzz
