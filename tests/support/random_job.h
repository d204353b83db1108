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

// The same job turned about an upright axis, clockwise on plan: every bearing further round by so many
// degrees.
std::string turned_job(const std::string& job, double degrees);

// Two slopes that meet in a valley or a hip, open or mitred, at any bearing, with walls, a stack and a pipe
// on the first, clear of the line.
std::string random_house(Generator& random);

}  // namespace lapwright::sample
