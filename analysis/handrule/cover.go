package handrule

import (
	"math"

	"clampline/diagram"
)

// rating is what one protector gives at its bus in one mode.
type rating struct {
	protector *diagram.Protector
	mode      diagram.Mode
	volts     float64 // V, with leads
	added     float64 // V, by the leads
}

// cover is what one mode of a bus gets from protectors at one place: the
// rating of one of them, or the sum of two that span the mode in series. What a
// bond of neutral and earth gives in the mode between them is a cover without a
// rating.
type cover struct {
	volts  float64 // at the place, V
	added  float64 // of it by leads, V
	limit  float64 // that the voltage rises to along the wiring, V
	total  float64 // length from there back to the source, m
	host   int     // the place of its protectors
	from   int     // the place where it counts: that one, or one above it
	first  rating
	second rating       // no protector where the first does it alone
	bond   bool         // the bond between neutral and earth spans the rest, or all where there is no rating
	mode   diagram.Mode // that the two span in series
	far    float64

	// Where its protector stands below the place where it counts:
	atHost float64 // the voltage at the place of the protector, V
	run    float64 // length of feeders to it, m
	via    int     // the place next below on the way
	metre  float64 // what each metre of the way to that adds, V/m
}

// isBond reports whether a bond alone holds the mode.
func (c *cover) isBond() bool { return c.first.protector == nil }

// below reports whether its protector stands below the place where it counts.
func (c *cover) below() bool { return c.host != c.from }

// lead returns what the feeders to a protector below add, V.
func (c *cover) lead() float64 { return c.volts - c.atHost }

func (c *cover) direct() bool { return c.second.protector == nil && !c.bond }

// distance returns the length of wiring from the place of the cover to another
// at the given length from the source. Lengths are sums, so they are rounded
// to a micrometre, lest 9.144 m be a hair less.
func (c *cover) distance(total float64) float64 { return math.Round((total-c.total)*1e6) / 1e6 }

// front is the covers of one mode that can be the lowest somewhere downstream,
// the nearest first. A front is shared and never altered.
type front []*cover

// with returns the front with one more cover, at the given place. slope is
// the rise of the voltage with distance, V/m.
func (f front) with(c *cover, slope float64) front {
	out := front{c}
	lowest := c.limit
	for _, old := range f {
		lowest = min(lowest, old.limit)
	}
	for _, old := range f {
		now := min(old.volts+slope*old.distance(c.total), old.limit)
		switch {
		case old.limit >= c.limit && now >= c.volts:
			continue // nowhere lower than the new one
		case now >= lowest && old.limit > lowest:
			continue // nowhere lower than the lowest one at its limit
		case old.limit <= c.limit && now <= c.volts:
			return f
		}
		out = append(out, old)
	}
	return out
}

// lowest returns the cover that gives the lowest voltage at a length from the
// source, that voltage and the distance, or nil where there is none.
func (f front) lowest(total float64, rule Rule) (best *cover, volts, distance float64) {
	for _, c := range f {
		d := c.distance(total)
		v := rule.at(c, d, nil)
		if best == nil || v < volts {
			best, volts, distance = c, v, d
		}
	}
	return best, volts, distance
}
