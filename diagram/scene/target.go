package scene

import "clampline/diagram"

// TargetKind is what sort of thing lies under a point.
type TargetKind uint8

// The sorts of target.
const (
	OnNothing   TargetKind = iota
	OnPart                 // the symbol or bus bar of a part
	OnFeeder               // the line of a feeder, or its label
	OnProtector            // the symbol of a protector, or its label
	OnTerminal             // where a feeder may begin or end
	OnBarEnd               // an end of a bus bar, by which it is made longer
	OnTag                  // the tag or label of a part
)

// Target is what lies under a point.
type Target struct {
	Kind  TargetKind
	ID    diagram.ID  // of the part, feeder or protector
	End   diagram.End // the terminal, of OnTerminal
	Share float64     // of OnFeeder: how far along the feeder, 0 to 1
	Side  int         // of OnBarEnd: -1 for the end at negative offsets, +1 for the other
}
