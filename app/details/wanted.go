package details

import (
	"errors"
	"fmt"
	"strings"

	"clampline/app/look"
	"clampline/diagram"
)

// notTaken says what a field must be, and what was typed instead.
type notTaken struct{ wanted, typed string }

// Error says it without the name of the field.
func (n notTaken) Error() string {
	return fmt.Sprintf("must be %s; %q is not", n.wanted, shortened(n.typed))
}

// wanted puts the name of the field before what it must be: an error begins with
// what to type.
func wanted(label string, err error) error {
	var own notTaken
	if errors.As(err, &own) {
		return errors.New(look.SentenceCase(label) + " " + own.Error())
	}
	return err
}

// outOfBounds says the same of what the document does not take.
func outOfBounds(label, unit string, err error) error {
	var invalid *diagram.InvalidError
	if !errors.As(err, &invalid) {
		return err
	}
	bounds, isRange := strings.CutPrefix(invalid.Problems[0].Remedy, "use ")
	if !isRange {
		return err
	}
	if last := bounds[len(bounds)-1]; unit != "" && last >= '0' && last <= '9' {
		bounds += " " + unit
	}
	return errors.New(look.SentenceCase(label) + " must be " + bounds)
}
