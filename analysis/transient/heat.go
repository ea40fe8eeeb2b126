package transient

// sums are what is turned to heat, delivered by sources, and taken back by them, J.
// What limiters lose is a sum of its own, so that the order in which things are added
// up does not hang on where a run is cut.
type sums struct{ limited, lost, driven, returned float64 }

// heat accounts for the n steps after done: at each for sources and resistances that
// conduct; for the little resistances of lines and inductors and for insulation once
// in a block.
func (c *cluster) heat(done, n int) {
	if c.conducting > 0 || len(c.sources) > 0 {
		for at := 1; at <= n; at++ {
			c.look(at)
			c.heatNow(done + at)
		}
	}
	if c.unheated += n; c.unheated >= block {
		c.lost += c.elsewhere()
		c.unheated = 0
	}
}

// heatNow accounts for step k, at which the cluster looks.
func (c *cluster) heatNow(k int) {
	for i := range c.resistors[:c.conducting] {
		c.lost += c.resistors[i].power(c) * c.h
	}
	for i := range c.sources {
		driven, own := c.sources[i].power(c, k)
		c.driven += max(driven, 0) * c.h
		c.returned += max(-driven, 0) * c.h
		c.lost += own * c.h
	}
}

// elsewhere returns the heat of the steps that are not accounted for, J.
func (c *cluster) elsewhere() float64 {
	if f := c.fused; f != nil && f.steps > 0 && len(c.inductors)+len(c.windings) > 0 {
		f.tell(c, f.in[f.lin:], c.v)
	}
	lost := 0.0
	for _, e := range c.ends {
		lost += e.power()
	}
	for i := range c.resistors[c.conducting:] {
		lost += c.resistors[c.conducting+i].power(c)
	}
	for i := range c.inductors {
		lost += c.inductors[i].power()
	}
	for i := range c.windings {
		lost += c.windings[i].power()
	}
	return lost * float64(c.unheated) * c.h
}
