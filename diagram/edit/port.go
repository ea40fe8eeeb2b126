package edit

import (
	"math"

	"clampline/diagram"
	"clampline/diagram/geom"
	"clampline/diagram/symbol"
)

// suitingPort returns the terminal of a part for a feeder to the other part.
func (e *Editor) suitingPort(part, other diagram.Part) diagram.Port {
	ports := part.Kind.Ports()
	if len(ports) == 1 {
		return ports[0]
	}
	if port, ok := portByKind(part.Kind, other.Kind); ok {
		return port
	}
	return e.nearestPort(part, other.At)
}

// portByKind returns the terminal that follows from what the parts are alone.
func portByKind(kind, other diagram.Kind) (diagram.Port, bool) {
	switch kind {
	case diagram.Transformer:
		if other.IsSource() {
			return diagram.Primary, true
		}
		return diagram.Secondary, other == diagram.Load
	case diagram.TransferSwitch:
		switch other {
		case diagram.Supply:
			return diagram.Normal, true
		case diagram.Generator:
			return diagram.Emergency, true
		}
		return diagram.Common, other == diagram.Load
	}
	return "", false
}

// takenPenalty is how much farther a terminal counts that has its feeder, in
// mm: much farther than the other terminals of its symbol.
const takenPenalty = 100

// nearestPort returns the terminal that looks toward a point, a free one where
// two look the same way.
func (e *Editor) nearestPort(part diagram.Part, toward geom.Point) diagram.Port {
	best, least := diagram.Port(""), math.Inf(1)
	place := geom.Turn(part.Turn).Then(geom.Translate(part.At))
	for _, terminal := range symbol.For(part).Terminals {
		distance := place.Apply(terminal.At).Distance(toward)
		if e.isTaken(diagram.End{Part: part.ID, Port: terminal.Port}) {
			distance += takenPenalty
		}
		if distance < least {
			best, least = terminal.Port, distance
		}
	}
	return best
}

// isTaken reports whether the terminal takes one feeder and has it. Many may
// leave a transformer's secondary and the load side of a transfer switch.
func (e *Editor) isTaken(end diagram.End) bool {
	if end.Port == diagram.Secondary || end.Port == diagram.Common {
		return false
	}
	for feeder := range e.doc.Feeders() {
		if feeder.From == end || feeder.To == end {
			return true
		}
	}
	return false
}
