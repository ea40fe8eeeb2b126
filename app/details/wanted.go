package details

import (
	"errors"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// refused says why a field does not take what was typed: what to type stands
// first. The example is one of the figure where the field is of one.
func (e *entry) refused(label string, c unit.Convention, err error) error {
	var must unit.Must
	if !errors.As(err, &must) {
		return err
	}
	must.Field = unit.SentenceCase(label)
	if must.Such != "" && e.figure != nil {
		must.Such = e.figure.Example(c)
	}
	return must
}

// outOfBounds says what a number must be that the document does not take; write
// is how the field writes it.
func outOfBounds(label string, write func(float64) string, err error) error {
	var invalid *diagram.InvalidError
	if !errors.As(err, &invalid) || invalid.Problems[0].Bounds == (diagram.Bounds{}) {
		return err
	}
	return unit.Must{Field: unit.SentenceCase(label), Wanted: invalid.Problems[0].Bounds.Words(write)}
}
