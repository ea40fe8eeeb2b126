package transient

// memory is what an element, or several in one, keep from step to step: the
// currents that they drive in, and how these follow from the voltages.
type memory interface {
	// state returns what will be driven in in the step to come, by the trapezoidal
	// rule, and what is driven in now, A.
	state() (coming, now []float64)
	// half finds what is driven in now, in one half of a step by the backward Euler
	// rule, which begins with voltages of the cluster.
	half(volts []float64)
	// drive drives in what is driven in now.
	drive(inj []float64)
	// after takes over the voltages of the end of a step or of half of one.
	after(volts []float64)
	// reset goes back to the start.
	reset()
}

// recall drives in what is remembered, in a whole step.
func recall(m memory, inj []float64) {
	coming, now := m.state()
	copy(now, coming)
	m.drive(inj)
}
