package fault

import (
	"clampline/analysis/usual"
	"clampline/diagram"
)

// motor returns what a motor load feeds into a fault at its terminals, VA: its
// power over its subtransient impedance. It is 0 for any other load, and where
// its power is not known. Between two lines half of the loop counts, so that it
// is twice as much; on three phases a motor of one phase is taken to be spread
// over all.
func (r rules) motor(part *device, s diagram.System) complex128 {
	if !isMotor(part) || part.Load.Power < 1 {
		return 0
	}
	subtransient, xr, _ := usual.Motor(part.Load.Power, r.iec)
	z := r.impedance(subtransient, xr)
	power := part.Load.Power
	if s.Phases() == 1 {
		power *= 2
	}
	return complex(power, 0) / z
}

func isMotor(part *device) bool { return part.Kind == diagram.Load && part.Load.Motor }
