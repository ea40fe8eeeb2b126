package analysis

import "clampline/diagram"

// Fault is what current can flow at one terminal when its conductors are
// joined there: the highest over all positions of the transfer switches above
// it, in A rms symmetrical. A current is 0 where the conductors are missing, or
// where it is not known.
type Fault struct {
	At          diagram.End
	Known       bool   // whether anything could be found
	Why         string // where not Known: what is missing; else from which source the highest comes, and by which positions
	Estimated   bool   // a figure that the sheet does not give was taken as usual
	ThreePhase  float64
	LineLine    float64
	LineNeutral float64
	LineEarth   float64 // where the earthing does not hold the neutral: of a first fault, 0 where it is not known
	XR          float64 // reactance over resistance of the highest; 0 not known
	Assumptions []Assumption
	Working     Working // made on demand
}

// Highest returns the greatest of the currents, A: what the short-circuit
// rating of equipment has to stand.
func (f Fault) Highest() float64 {
	return max(f.ThreePhase, f.LineLine, f.LineNeutral, f.LineEarth)
}
