// What the set-out stage hands to the stages after it: the courses of one slope and the units in them.
#pragma once

#include <lapwright/base/units.h>
#include <lapwright/job/plan.h>

#include <cstdint>
#include <string>
#include <vector>

namespace lapwright::job {

struct Course {
  Length tail;    // up the slope, from the tail of the eaves course
  Length length;  // of its units before they are cut at the top edge
  Length margin;  // to the next tail; of the last course, to the top edge
};

struct SlopeLayout {
  SetOut set_out;
  Length top;                   // the slope's top edge: the rafter
  std::vector<Course> courses;  // empty when nothing can be laid (the findings say why)
  Length under_length;          // of the under-course, whose tail is at 0
  std::vector<Row> rows;        // the under-course (course −1), then one or more a course, left to right
  std::vector<Finding> findings;

  // Head of the unit that a soaker under course k lies on, before any cut: course k − 1, or the under-course.
  Length head_below(std::size_t k) const {
    return k == 0 ? under_length : courses[k - 1].tail + courses[k - 1].length;
  }
};

// Everything planned at one face of a junction.
struct JunctionPlan {
  std::vector<Piece> pieces;  // marks not yet given
  std::vector<Finding> findings;
  // What is fitted with each course, soakers: index into `pieces`, per course; −1: none.
  std::vector<std::int64_t> soaker_of_course;
  // What goes on before the units of a course are laid over it: an apron, a gutter.
  struct BeforeCourse {
    std::int64_t course = 0;  // at or past the last course: before the flashings
    WorkStep step;
    std::int64_t piece = -1;  // index into `pieces`; −1: none
  };
  std::vector<BeforeCourse> work_before_course;
  std::vector<WorkStep> work_after_courses;  // flashings and finishing, bottom up; marks not yet given
  std::vector<std::int64_t> piece_of_work;   // of each: index into `pieces`; −1: none
};

}  // namespace lapwright::job
