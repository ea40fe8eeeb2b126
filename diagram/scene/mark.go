package scene

import (
	"clampline/diagram"
	"clampline/diagram/draw"
)

// Mark is what the tag of a board or load says and how the part is drawn.
type Mark struct {
	Role   draw.Role // colour of the bar or symbol and of the tag
	Dash   draw.Dash // pattern of the bar
	Letter string    // on the tag's badge; empty leaves the badge out
	Lines  []string  // below the name, such as "1 240 V L-G · 31 %"
	System string    // faint at the right of the name, such as "480Y/277"
	Gauge  Gauge     // below the lines; the zero value is none
}

// Gauge is a thin bar on a scale, with a tick: where a figure may lie, and its limit.
// All are shares of the scale, 0 to 1, Low no greater than High.
type Gauge struct{ Low, High, Limit float64 }

// Piece is how a feeder is drawn between two shares of its length.
type Piece struct {
	From, To float64 // shares of the feeder, 0 to 1, From no greater than To
	Role     draw.Role
	Dash     draw.Dash
}

// FeederMark is how a feeder is drawn along its length: the pieces in order.
// Where no piece reaches, the feeder is drawn in ink.
type FeederMark struct{ Pieces []Piece }

// LegendEntry explains one verdict, or a badge where that counts something, or the
// sign of a place at which cover ends, or the frame of a difference.
type LegendEntry struct {
	Role   draw.Role
	Dash   draw.Dash
	Letter string
	Text   string
	Badge  Badge
	Break  bool
	Differ Differ
}

// Marks is what an analysis says about the records of a document, by id.
type Marks struct {
	Parts      map[diagram.ID]Mark
	Feeders    map[diagram.ID]FeederMark
	Breaks     map[diagram.ID]string   // a transformer or open feeder at which cover ends, and the words for it
	Protectors map[diagram.ID][]string // label lines of a protector, such as "lead 18 in, 1 200 V"
	Badges     map[diagram.ID]Badge    // what was found at a part, feeder or protector
	// Differences are those of the plan from another one, which are marked. The
	// caller must not alter them while the scene is in use.
	Differences []diagram.PlanDifference
	Legend      []LegendEntry
}
