package edit

import (
	"clampline/diagram"
	"clampline/diagram/unit"
)

// newLength returns the length of a new feeder, m: round in the convention.
func newLength(c unit.Convention) float64 {
	if c == unit.IEC {
		return 10
	}
	return 30 * 0.3048
}

// Connect leads a feeder between two parts, from the one that feeds to the one
// that is fed, at the terminals that suit, and returns its id.
func (e *Editor) Connect(a, b diagram.ID) (diagram.ID, error) {
	from, okFrom := e.doc.Part(a)
	to, okTo := e.doc.Part(b)
	if !okFrom || !okTo || len(from.Kind.Ports()) == 0 || len(to.Kind.Ports()) == 0 {
		return "", errNoEnd
	}
	return e.link(
		diagram.End{Part: a, Port: e.suitingPort(from, to)},
		diagram.End{Part: b, Port: e.suitingPort(to, from)})
}

// link adds a feeder between two terminals, the way it feeds found from what
// they are.
func (e *Editor) link(from, to diagram.End) (diagram.ID, error) {
	if err := e.mayLink(from, to, ""); err != nil {
		return "", err
	}
	if e.feedsBackward(from, to) {
		from, to = to, from
	}
	var id diagram.ID
	label := "connect " + e.nameOf(from.Part) + " to " + e.nameOf(to.Part)
	err := e.changeSelecting(label, func(tx *diagram.Tx) ([]diagram.ID, error) {
		feeder := e.newFeeder()
		feeder.ID, feeder.From, feeder.To = tx.NewFeederID(), from, to
		tx.SetFeeder(feeder)
		e.takePrimary(tx, feeder)
		id = feeder.ID
		return []diagram.ID{id}, nil
	})
	return id, err
}

// reconnect leads the head or the far end of a feeder to another terminal.
func (e *Editor) reconnect(id diagram.ID, atHead bool, end diagram.End) error {
	feeder, ok := e.doc.Feeder(id)
	if !ok {
		return nil
	}
	if atHead {
		feeder.From = end
	} else {
		feeder.To = end
	}
	if err := e.mayLink(feeder.From, feeder.To, id); err != nil {
		return err
	}
	return e.changeSelecting("reconnect "+e.describe([]diagram.ID{id}), func(tx *diagram.Tx) ([]diagram.ID, error) {
		tx.SetFeeder(feeder)
		return []diagram.ID{id}, nil
	})
}

// mayLink refuses a feeder from a part to itself, and a second one between the
// same terminals.
func (e *Editor) mayLink(from, to diagram.End, except diagram.ID) error {
	if from.Part == to.Part {
		return errToSelf
	}
	for feeder := range e.doc.Feeders() {
		same := feeder.From == from && feeder.To == to || feeder.From == to && feeder.To == from
		if same && feeder.ID != except {
			return errTwice
		}
	}
	return nil
}

func (e *Editor) newFeeder() diagram.Feeder {
	return diagram.Feeder{
		Length:   newLength(e.options.Scene.Convention),
		Material: diagram.Copper,
		Switch:   diagram.SwitchData{Kind: diagram.Breaker},
	}
}

// takePrimary gives a transformer whose primary is still that of a new part
// the voltage of what feeds it.
func (e *Editor) takePrimary(tx *diagram.Tx, feeder diagram.Feeder) {
	part, ok := tx.Part(feeder.To.Part)
	untouched := ok && part.Kind == diagram.Transformer && feeder.To.Port == diagram.Primary &&
		part.Transformer.Primary == newTransformer(e.options.Scene.Convention).Transformer.Primary
	system := systemAt(tx.Document(), feeder.From)
	if untouched && system.Known() {
		part.Transformer.Primary = primaryOn(system, part.Transformer.Primary.Earthing)
		tx.SetPart(part)
	}
}

// primaryOn returns the usual primary winding on a system: a delta on three
// lines, a winding across both on two. A neutral stays unused.
func primaryOn(s diagram.System, earthing diagram.Earthing) diagram.System {
	out := diagram.System{Wiring: diagram.Delta, Voltage: s.Voltage, Earthing: earthing, Frequency: s.Frequency}
	switch s.Lines() {
	case 1:
		return s
	case 2:
		out.Wiring = diagram.Single
	}
	return out
}

// feedsBackward reports whether a feeder drawn from a to b carries power from b
// to a.
func (e *Editor) feedsBackward(a, b diagram.End) bool {
	if ofA, ofB := e.feeds(a), e.feeds(b); ofA != ofB {
		return ofA < ofB
	}
	return e.isFed(b.Part) && !e.isFed(a.Part)
}

// feeds returns how surely power leaves the part at the terminal: positive
// where it does, negative where it comes in.
func (e *Editor) feeds(end diagram.End) int {
	part, _ := e.doc.Part(end.Part)
	switch {
	case part.Kind.IsSource():
		return 2
	case part.Kind == diagram.Load:
		return -2
	}
	switch end.Port {
	case diagram.Secondary, diagram.Common:
		return 1
	case diagram.Primary, diagram.Normal, diagram.Emergency:
		return -1
	}
	return 0
}

func (e *Editor) isFed(part diagram.ID) bool {
	for feeder := range e.doc.Feeders() {
		if feeder.To.Part == part {
			return true
		}
	}
	return false
}
