package handrule

// AtDistance returns the voltage at some distance from a protector that holds
// ea, for a surge of the given steepness (V/s) in wiring of the given speed
// (m/s): E = Ea + 2 S d / v, and at most 2 Ea.
//
// Source: Chakrabarti, Soni, Gupta, Bhatnagar, A Textbook on Power System
// Engineering, examples 2.15.1 and 2.15.2.
func AtDistance(ea, steepness, distance, speed float64) float64 {
	return rising(ea, 2*ea, steepness, distance, speed)
}

// AllowedDistance returns the distance up to which AtDistance stays within a
// withstand, in m, and whether there is such a limit: there is none where the
// withstand is at least 2 Ea or nothing rises. It is 0 where ea is above the
// withstand already.
func AllowedDistance(withstand, ea, steepness, speed float64) (distance float64, limited bool) {
	return allowed(withstand, ea, 2*ea, steepness, speed)
}
