package protector

import "fmt"

// note says which levels the simulated tests don't read, and why.
func (c *calibration) note() {
	for mode := range Mode(ModeCount) {
		if c.Plate.Modes[mode].Connected && !c.isMet(mode, tolerance) {
			text := fmt.Sprintf("%s: the nameplate states %.0f V, but the simulated test reads %.0f V; %s", mode, c.Plate.Modes[mode].Level, c.Readings[mode], c.reason(mode))
			c.Notes = append(c.Notes, text)
		}
	}
}

// reason tells why the test of a mode reads something else than its level.
func (c *calibration) reason(mode Mode) string {
	level, reading := c.Plate.Modes[mode].Level, c.Readings[mode]
	driven := c.Plate.Rating == VPR || c.Plate.Modes[mode].Switching
	higher := reading > level
	switch {
	case higher && c.Plate.Rating == VPR:
		return "the leads of the test, or another mode, alone give more than the level"
	case higher:
		return "its own wiring, or another mode, alone gives more than the level"
	case driven && reading > 0.9*testVolts:
		return fmt.Sprintf("the test has no more than %.0f V", testVolts)
	}
	return "other modes in series hold it lower"
}
