package transient

// fused is a step by the trapezoidal rule of all that is linear in a cluster, as one
// sum. What goes in is what lines and sources drive into the linear nodes, what is
// remembered, and the voltages of the other nodes; what comes out is the linear
// voltages and what is remembered next. The first two of each take up whole fours.
type fused struct {
	lin, kept int
	plain     bool      // there are four linear nodes, no others, and nothing that has to be asked at each step
	want      panel     // from what goes in but the last to what the other nodes are driven with
	sum       panel     // from what goes in to what comes out
	settled   panel     // from what goes in but the last, and one, to what comes out and the last, while no limiter leaves its piece
	in, out   []float64 // of the step before
	spare     []float64 // for what goes in
	before    []float64 // what was remembered in the one before that
	steps     int       // since the elements knew; 0 where they do
}

// mostFused is how many products a fused step may take; of more, most are with zero.
const mostFused = 1200

// newFused finds the sums by trying each of what goes in by itself. It returns nil for
// a cluster that is better solved element by element.
func newFused(c *cluster) *fused {
	kept := 0
	for _, m := range c.memory {
		coming, _ := m.state()
		kept += len(coming)
	}
	f := &fused{lin: fours(c.lin), kept: max(4, fours(kept))}
	f.plain = f.lin == 4 && f.kept == 4 && c.non == 0 && len(c.sources) == 0
	rows, columns := f.lin+f.kept, f.lin+f.kept+c.non
	if len(c.ends) == 0 || rows*columns > mostFused {
		return nil
	}
	f.in, f.spare, f.before = make([]float64, columns+1), make([]float64, columns+1), make([]float64, f.kept)
	f.out = make([]float64, rows+fours(c.non+1)) // with earth
	f.want, f.sum, f.settled = noPanel(c.non, rows), noPanel(rows, columns), noPanel(len(f.out), rows+1)
	for j := range columns {
		clear(f.in)
		f.in[j] = 1
		f.try(c)
		if f.sum.set(j, f.out); j < rows {
			f.want.set(j, c.newton.want)
		}
	}
	clear(f.in)
	for _, m := range c.memory {
		m.reset()
	}
	clear(c.volts)
	c.look(0)
	return f
}

// try finds what comes out element by element.
func (f *fused) try(c *cluster) {
	c.look(1)
	clear(c.inj)
	copy(c.inj[:c.lin], f.in)
	f.give(c, f.in[f.lin:])
	for _, m := range c.memory {
		recall(m, c.inj)
	}
	c.wanted()
	copy(c.v[c.lin:c.n], f.in[f.lin+f.kept:])
	c.linearVolts()
	for _, m := range c.memory {
		m.after(c.v)
	}
	clear(f.out)
	copy(f.out, c.v[:c.lin])
	f.take(c)
}

// give tells the elements what is remembered.
func (f *fused) give(c *cluster, kept []float64) {
	for _, m := range c.memory {
		coming, _ := m.state()
		kept = kept[copy(coming, kept):]
	}
}

// take asks them for it.
func (f *fused) take(c *cluster) {
	kept := f.out[f.lin:]
	for _, m := range c.memory {
		coming, _ := m.state()
		kept = kept[copy(kept, coming):]
	}
}

// tell has the elements know what has become of them in a step, by what was
// remembered in it and the voltages after it.
func (f *fused) tell(c *cluster, kept, volts []float64) {
	for _, m := range c.memory {
		_, now := m.state()
		kept = kept[copy(now, kept):]
		m.after(volts)
	}
}

// leave has the elements know what they are after the step before that at which the
// cluster looks; taken is whether that one is solved already, and taken back.
func (f *fused) leave(c *cluster, taken bool) {
	kept := f.in[f.lin:]
	if taken {
		kept = f.before
		f.steps--
	}
	if f.steps > 0 {
		f.tell(c, kept, c.before())
	}
	f.steps = 0
}

// rest takes the steps of a block from one on, of a plain cluster.
func (f *fused) rest(c *cluster, from, n int) {
	if f.steps += n + 1 - from; f.steps == n+1-from {
		f.take(c)
	}
	steps(f.sum.values, c.volts[from*c.width:], c.drive[from*c.width:], c.width, n+1-from, (*wave)(f.in[4:]), (*wave)(f.out[4:]))
}

// solve takes the step at which the cluster looks.
func (f *fused) solve(c *cluster) bool {
	if f.steps++; f.steps == 1 {
		f.take(c)
	}
	if c.gaps {
		copy(f.before, f.in[f.lin:])
	}
	copy(f.in[f.lin:], f.out[f.lin:f.lin+f.kept])
	copy(f.in[:c.lin], c.inj)
	if c.non > 0 {
		if f.rests(c) {
			return true
		}
		f.want.times(c.newton.want, f.in)
		for i, driven := range c.inj[c.lin:c.n] {
			c.newton.want[i] += driven
		}
		if !c.solveLimited() {
			return false
		}
		copy(f.in[f.lin+f.kept:], c.v[c.lin:c.n])
	}
	f.sum.times(f.out, f.in)
	copy(c.v[:c.lin], f.out)
	return true
}

// calm is after how many steps with the same pieces it pays to put them into the sum.
const calm = 16

// rests takes the step if the limiters have rested on their pieces for some steps and
// go on resting there.
func (f *fused) rests(c *cluster) bool {
	n := &c.newton
	if n.stale || c.drivesIn {
		return false
	}
	switch n.steps++; {
	case n.steps < calm:
		return false
	case n.steps == calm:
		f.settle(c)
	}
	f.in[f.lin+f.kept] = 1
	f.settled.times(f.out, f.in)
	others := f.out[f.lin+f.kept:]
	if !c.within(others) {
		return false
	}
	copy(c.v[:c.lin], f.out)
	copy(c.v[c.lin:c.n], others)
	return true
}

// settle puts the present pieces into the sum: what goes in, each by itself, and then
// what the limiters drive in.
func (f *fused) settle(c *cluster) {
	copy(f.spare, f.in)
	rows, n := f.lin+f.kept, &c.newton
	for j := range rows + 1 {
		clear(f.in)
		if f.in[j] = 1; j < rows {
			f.want.times(n.rest, f.in)
		} else {
			f.in[j] = 0
			c.offsets(n.rest)
		}
		others := f.in[rows:]
		copy(others, n.rest[:c.non])
		substitute(others[:c.non], n.factor)
		f.sum.times(f.out, f.in)
		copy(f.out[rows:], others)
		f.settled.set(j, f.out)
	}
	copy(f.in, f.spare)
}
