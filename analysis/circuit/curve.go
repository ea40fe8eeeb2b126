package circuit

import "sort"

// Curve is the current of a voltage-limiting component over the voltage, as
// straight pieces between points. It is odd: only the positive half is kept,
// and it begins at the origin. The last piece goes on for ever.
type Curve struct {
	Name  string    // for people; unique in a network
	Volts []float64 // rising, the first 0
	Amps  []float64 // rising, the first 0
}

// Current returns the current at a voltage, A.
func (c *Curve) Current(volts float64) float64 {
	if volts < 0 {
		return -c.Current(-volts)
	}
	i := sort.SearchFloat64s(c.Volts, volts)
	i = min(max(i, 1), len(c.Volts)-1)
	return c.Amps[i-1] + (volts-c.Volts[i-1])*c.slope(i)
}

// Voltage returns the voltage at a current, V.
func (c *Curve) Voltage(amps float64) float64 {
	if amps < 0 {
		return -c.Voltage(-amps)
	}
	i := sort.SearchFloat64s(c.Amps, amps)
	i = min(max(i, 1), len(c.Amps)-1)
	return c.Volts[i-1] + (amps-c.Amps[i-1])/c.slope(i)
}

// slope returns the conductance of the piece that ends at a point.
func (c *Curve) slope(i int) float64 {
	return (c.Amps[i] - c.Amps[i-1]) / (c.Volts[i] - c.Volts[i-1])
}

// Scaled returns the curve with all voltages multiplied by a factor.
func (c *Curve) Scaled(name string, factor float64) *Curve {
	out := &Curve{Name: name, Amps: c.Amps, Volts: make([]float64, len(c.Volts))}
	for i, v := range c.Volts {
		out.Volts[i] = v * factor
	}
	return out
}
