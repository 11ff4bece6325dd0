// Package ride measures the distance of recorded rides in GPX 1.1 files.
//
// The distance is the sum of the WGS84 geodesics between following points of
// each track segment (trkseg). Segments are not joined, because between two of
// them nothing was recorded; routes (rte) are plans and waypoints (wpt) are
// places, so neither is counted. Height is left out: at a grade of 10 % the way
// along the road is 0.5 % longer.
//
// GPX 1.1 (the schema at http://www.topografix.com/GPX/1/1/gpx.xsd): latitudes
// are -90 to 90 and longitudes -180 to below 180, both xsd:decimal, which has
// no exponent, NaN or INF; times are xsd:dateTime in UTC. A point that breaks
// this is left out and counted, and the ride is measured straight past it. Only
// version 1.1 is read; the names of elements are held against its namespace.
package ride
