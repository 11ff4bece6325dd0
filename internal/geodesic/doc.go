// Package geodesic gives the shortest distance between two points on the WGS84
// ellipsoid (the inverse geodesic problem).
//
// Method: the auxiliary sphere of Bessel (1825) in the form of Karney,
// "Algorithms for geodesics", J. Geod. 87 (2013) 43–55, equations 5 to 8. Points
// are put on a sphere at their reduced latitudes; a geodesic becomes a great
// circle, its length and its longitude difference two smooth integrals along
// that circle. Where Karney expands the integrals in series and looks for the
// azimuth, this package integrates by Gauss–Legendre and looks for the
// longitude difference on the sphere: between 0 and π it rises with the one on
// the ellipsoid, so a bracketed search always ends, nearly antipodal points
// included.
package geodesic
