// What a pipe slate's base would reach into: another junction's foot line or pipe, or past the slope's edge.
#pragma once

#include "place.h"

namespace lapwright::pieces {

struct BaseBox {
  Length left;
  Length tail;
  Length right;
  Length head;
};

// Adds a doubt for each neighbour in the way and for each edge of the slope that it reaches past.
void say_what_is_near(const Place& place, const BaseBox& base, job::JunctionPlan& plan);

}  // namespace lapwright::pieces
