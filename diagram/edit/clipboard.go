package edit

import (
	"errors"
	"strings"

	"clampline/diagram"
	"clampline/diagram/file"
)

// memory is a clipboard of the editor's own.
type memory struct{ text string }

func (m *memory) Content() string        { return m.text }
func (m *memory) SetContent(text string) { m.text = text }

var _ Clipboard = (*memory)(nil)

// borrowed marks a part that is copied only because a copied protector hangs
// on it; pasting does not place it.
const borrowed = `{"borrowed":true}`

var errNothingToCopy = errors.New("nothing to copy is selected; select parts or protectors")

func canCopy(e *Editor) bool { return selects(e, 1, e.doc.Part) || selects(e, 1, e.doc.Protector) }

// Copy returns the selection as text: a small sheet in the format of the
// files. The feeders between the selected parts come along, and the protectors
// that the present plan has on them.
func (e *Editor) Copy() (string, error) {
	if !canCopy(e) {
		return "", errNothingToCopy
	}
	clip, err := e.clip()
	if err != nil {
		return "", err
	}
	var text strings.Builder
	err = file.Write(&text, clip)
	return text.String(), err
}

// clip returns the selection as a document of its own, with the ids it has.
func (e *Editor) clip() (*diagram.Document, error) {
	clip := diagram.New()
	_, err := clip.Edit(func(tx *diagram.Tx) error {
		for _, part := range e.selectedParts() {
			tx.SetPart(part)
		}
		for feeder := range e.doc.Feeders() {
			_, from := tx.Part(feeder.From.Part)
			_, to := tx.Part(feeder.To.Part)
			if from && to {
				tx.SetFeeder(feeder)
			}
		}
		e.clipProtectors(tx)
		return nil
	})
	return clip, err
}

// clipProtectors copies the protectors on copied parts, and those that are
// selected by themselves with their hosts as borrowed parts.
func (e *Editor) clipProtectors(tx *diagram.Tx) {
	for protector := range e.doc.ProtectorsOf(e.plan) {
		host, copied := tx.Part(protector.Bus)
		copied = copied && host.Extra != borrowed
		if !copied && !e.IsSelected(protector.ID) {
			continue
		}
		if !copied {
			host, _ = e.doc.Part(protector.Bus)
			host.Extra = borrowed
			tx.SetPart(host)
		}
		protector.Plan = diagram.FirstPlan
		tx.SetProtector(protector)
	}
}

// Cut copies the selection and then removes it.
func (e *Editor) Cut() (string, error) {
	text, err := e.Copy()
	if err != nil {
		return "", err
	}
	return text, e.remove("cut ")
}

// Delete removes what is selected, and with a part its feeders, the protectors
// of every plan on it and the surge cases that arrive at it.
func (e *Editor) Delete() error { return e.remove("delete ") }

func (e *Editor) remove(verb string) error {
	return e.changeSelecting(verb+e.describe(e.selected), func(tx *diagram.Tx) ([]diagram.ID, error) {
		tx.Remove(e.selected...)
		return nil, nil
	})
}

func (e *Editor) copyToClipboard() error { return e.toClipboard((*Editor).Copy) }

func (e *Editor) cutToClipboard() error { return e.toClipboard((*Editor).Cut) }

func (e *Editor) toClipboard(take func(*Editor) (string, error)) error {
	text, err := take(e)
	if err == nil {
		e.options.Clipboard.SetContent(text)
	}
	return err
}

func (e *Editor) pasteFromClipboard() error {
	return e.Paste(e.options.Clipboard.Content(), e.place().at)
}
