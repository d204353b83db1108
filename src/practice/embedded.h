// The data files that are built into the program (cmake/embed.cmake).
#pragma once

#include <string_view>

namespace lapwright::embedded {

std::string_view uk_common_json();      // data/practice/uk-common.json
std::string_view english_texts_json();  // data/texts/en.json

}  // namespace lapwright::embedded
