package words

// rideEnglish has the texts of the calculation ride. That a distance from
// satellite positions is 1 to 2 % off is common practice, no source.
var rideEnglish = map[string]string{
	"ride_expect":    "Expect this distance to be 1 to 2 % off: jitter of the satellite positions makes a ride longer, sparse points make it shorter, and climbing is not counted.",
	"ride_segments":  "The ride has {count} pieces. Each was measured by itself; nothing is counted between them.",
	"ride_routes":    "Planned routes left out: {count}. A plan is not a ride.",
	"ride_waypoints": "Waypoints left out: {count}. They are places, not a ride.",
	"ride_long_leg":  "Two points that follow each other are {km} km apart and the straight line between them is counted. If you did not ride it, correct the distance.",
	"ride_skipped":   "Points left out: {count}. The ride is measured straight past them.",
	"ride_times":     "Points with a time that cannot be read: {count}. They count for the distance.",

	"ride_no_position":         "the point has no lat or no lon",
	"ride_unreadable_position": "lat or lon is not a plain decimal number",
	"ride_out_of_range":        "lat is not within -90 to 90, or lon not within -180 to below 180",
	"ride_misplaced":           "the point does not stand in a track segment (trkseg) of a track (trk)",
}
