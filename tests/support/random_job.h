// Jobs made up at random: side walls of every kind on double-lap coverings, honest and odd ones alike.
#pragma once

#include <lapwright/base/generator.h>

#include <string>

namespace lapwright::sample {

// A job file that the reader accepts; whether it makes geometry is for the planner to say.
std::string random_job(Generator& random);

// The same job seen in a mirror: every wall on the other side of its slope, every bearing the other way
// round.
std::string mirrored_job(const std::string& job);

}  // namespace lapwright::sample
