package survey

import (
	"cmp"

	"clampline/diagram"
)

type (
	part      = diagram.Part
	protector = diagram.Protector
	field     = diagram.Field[subject]
)

// subject is what a row is about: a part, or a protector or a feeder and then no part.
type subject struct {
	part      part
	protector protector
	feeder    diagram.Feeder
}

func partOf(s *subject) *part             { return &s.part }
func protectorOf(s *subject) *protector   { return &s.protector }
func feederOf(s *subject) *diagram.Feeder { return &s.feeder }

func (s *subject) id() diagram.ID    { return cmp.Or(s.protector.ID, s.feeder.ID, s.part.ID) }
func (s *subject) board() diagram.ID { return s.protector.Bus }

// about returns a part as a subject. A supply has the transformer of the utility that
// it comes from, as a transformer has it.
func about(p part) subject {
	if p.Kind == diagram.Supply {
		p.Transformer.Power, p.Transformer.Impedance = p.Source.Power, p.Source.Reactance
	}
	return subject{part: p}
}

// drawn returns the part as the drawing has it.
func (s *subject) drawn() part {
	p := s.part
	if p.Kind == diagram.Supply {
		p.Source.Power, p.Source.Reactance = p.Transformer.Power, p.Transformer.Impedance
		p.Transformer = diagram.TransformerData{}
	}
	return p
}

// isDrawn reports whether the drawing has a place for all that is said of it.
func (s *subject) isDrawn() bool { return about(s.drawn()).part.Transformer == s.part.Transformer }
