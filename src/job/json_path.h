// JSON paths as faults show them: $.slopes[0].pitch, $.practice["soaker.upstand"].
#pragma once

#include <string>
#include <string_view>

namespace lapwright::job {

std::string path_of_key(std::string_view key);  // ".pitch", or "[\"a.b\"]" for a key that is no plain word
std::string path_of_item(std::size_t index);    // "[3]"

}  // namespace lapwright::job
