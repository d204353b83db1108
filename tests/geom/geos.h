// GEOS (C interface) as the reference for plane geometry: areas, validity, containment, intersection.
#pragma once

#include <lapwright/geom/polygon.h>

#include <geos_c.h>

#include <memory>

namespace lapwright::geom::sample {

class Geos {
 public:
  struct Drop {
    GEOSContextHandle_t context;
    void operator()(GEOSGeometry* geometry) const { GEOSGeom_destroy_r(context, geometry); }
  };
  using Geometry = std::unique_ptr<GEOSGeometry, Drop>;

  Geos() : context_(GEOS_init_r()) {}
  ~Geos() { GEOS_finish_r(context_); }
  Geos(const Geos&) = delete;
  Geos& operator=(const Geos&) = delete;

  // REQUIRES at least three points. Coordinates in µm.
  Geometry polygon(const Ring& ring) const {
    const auto n = static_cast<unsigned>(ring.size());
    GEOSCoordSequence* points = GEOSCoordSeq_create_r(context_, n + 1, 2);
    for (unsigned i = 0; i <= n; ++i) {
      const GridPoint p = ring[i % n];
      GEOSCoordSeq_setXY_r(context_, points, i, static_cast<double>(p.x), static_cast<double>(p.y));
    }
    GEOSGeometry* shell = GEOSGeom_createLinearRing_r(context_, points);
    return own(GEOSGeom_createPolygon_r(context_, shell, nullptr, 0));
  }
  Geometry point(GridPoint p) const {
    return own(GEOSGeom_createPointFromXY_r(context_, static_cast<double>(p.x), static_cast<double>(p.y)));
  }

  bool valid(const Geometry& g) const { return GEOSisValid_r(context_, g.get()) == 1; }
  bool contains(const Geometry& a, const Geometry& b) const {
    return GEOSContains_r(context_, a.get(), b.get()) == 1;
  }
  bool meets(const Geometry& a, const Geometry& b) const {
    return GEOSIntersects_r(context_, a.get(), b.get()) == 1;
  }
  double area(const Geometry& g) const {
    double out = 0;
    GEOSArea_r(context_, g.get(), &out);
    return out;
  }
  Geometry intersection(const Geometry& a, const Geometry& b) const {
    return own(GEOSIntersection_r(context_, a.get(), b.get()));
  }

 private:
  Geometry own(GEOSGeometry* geometry) const { return Geometry(geometry, Drop{context_}); }
  GEOSContextHandle_t context_;
};

}  // namespace lapwright::geom::sample
