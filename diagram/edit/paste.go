package edit

import (
	"errors"
	"fmt"
	"strings"

	"clampline/diagram"
	"clampline/diagram/file"
	"clampline/diagram/geom"
)

// besideStep is how far beside what it would cover a copy is placed, in mm.
const besideStep = 2 * gridPitch

var (
	errForeign = errors.New("the clipboard holds nothing that was copied from a sheet; copy parts or protectors first")
	errNoBus   = errors.New("select the board, load or junction on which to paste the protector")
)

// Paste places what Copy returned as text, under new ids, with its middle at
// the point of the grid nearest to at, or beside it where that would cover
// parts. Protectors go into the present plan; those copied without their part
// go on the selected one, or else on the part they come from.
func (e *Editor) Paste(text string, at geom.Point) error {
	clip, err := readClip(text)
	if err != nil {
		return err
	}
	middle := placedIn(clip)
	return e.insert("paste ", clip, at.Sub(middle.Center()).Snap(gridPitch))
}

func readClip(text string) (*diagram.Document, error) {
	if !strings.HasPrefix(strings.TrimSpace(text), "{") {
		return nil, errForeign
	}
	clip, err := file.Read(strings.NewReader(text))
	if err != nil {
		var one *file.Error
		if errors.As(err, &one) {
			err = one
		}
		return nil, fmt.Errorf("the clipboard cannot be pasted: %w", err)
	}
	return clip, nil
}

// Duplicate places a copy of the selection beside it.
func (e *Editor) Duplicate() error {
	if !canCopy(e) {
		return errNothingToCopy
	}
	clip, err := e.clip()
	if err != nil {
		return err
	}
	return e.insert("duplicate ", clip, geom.Pt(besideStep, besideStep))
}

// placedIn returns the rectangle round the middles of the parts to be placed.
func placedIn(clip *diagram.Document) geom.Rect {
	out := geom.Empty()
	for part := range clip.Parts() {
		if part.Extra != borrowed {
			out = out.Include(part.At)
		}
	}
	if out.IsEmpty() {
		return geom.Rect{}
	}
	return out
}

// insert adds the records of a clip, moved, and selects what was added.
func (e *Editor) insert(verb string, clip *diagram.Document, by geom.Point) error {
	in := insertion{
		editor: e, clip: clip, by: e.clear(clip, by),
		ids: map[diagram.ID]diagram.ID{}, names: namesOf(e.doc), named: namesOfProtectors(e.doc, e.plan),
	}
	if err := in.findHosts(); err != nil {
		return err
	}
	err := e.changeSelecting(verb+in.what(), func(tx *diagram.Tx) ([]diagram.ID, error) {
		in.parts(tx)
		in.feeders(tx)
		in.protectors(tx)
		return in.made, nil
	})
	if err == nil {
		e.setView(e.view.Show(placedIn(clip).Move(in.by)))
	}
	return err
}

// clear returns the step by which the parts of a clip are moved so that none
// lies just on a part of the sheet.
func (e *Editor) clear(clip *diagram.Document, by geom.Point) geom.Point {
	taken := map[geom.Point]bool{}
	for part := range e.doc.Parts() {
		taken[part.At] = true
	}
	covers := func() bool {
		for part := range clip.Parts() {
			if part.Extra != borrowed && taken[part.At.Add(by)] {
				return true
			}
		}
		return false
	}
	for covers() {
		by = by.Add(geom.Pt(besideStep, besideStep))
	}
	return by
}

// insertion is the work of adding a clip to the sheet.
type insertion struct {
	editor *Editor
	clip   *diagram.Document
	by     geom.Point
	ids    map[diagram.ID]diagram.ID // of parts: in the clip, on the sheet
	names  names                     // of parts
	named  names                     // of protectors in the present plan
	made   []diagram.ID              // to be selected
}

// findHosts finds a part on the sheet for each borrowed one of the clip.
func (in *insertion) findHosts() error {
	chosen, ok := in.editor.onlyPart()
	for part := range in.clip.Parts() {
		if part.Extra != borrowed {
			continue
		}
		host, exists := chosen, ok && chosen.Kind.TakesProtector()
		if !exists {
			host, exists = in.editor.doc.Part(part.ID)
		}
		if !exists || !host.Kind.TakesProtector() {
			return errNoBus
		}
		in.ids[part.ID] = host.ID
	}
	return nil
}

func (in *insertion) what() string {
	parts, _, protectors := in.clip.Count()
	parts -= len(in.ids)
	switch {
	case parts == 1:
		return "a part"
	case parts > 1:
		return fmt.Sprintf("%d parts", parts)
	case protectors == 1:
		return "a protector"
	}
	return fmt.Sprintf("%d protectors", protectors)
}

func (in *insertion) parts(tx *diagram.Tx) {
	for part := range in.clip.Parts() {
		if part.Extra == borrowed {
			continue
		}
		id := tx.NewPartID(part.Kind)
		in.ids[part.ID] = id
		in.made = append(in.made, id)
		part.ID, part.At = id, part.At.Add(in.by)
		if part.Kind != diagram.Note {
			part.Name = in.names.fresh(part.Name)
		}
		tx.SetPart(part)
	}
}

func (in *insertion) feeders(tx *diagram.Tx) {
	for feeder := range in.clip.Feeders() {
		feeder.ID = tx.NewFeederID()
		feeder.From.Part, feeder.To.Part = in.ids[feeder.From.Part], in.ids[feeder.To.Part]
		tx.SetFeeder(feeder)
	}
}

func (in *insertion) protectors(tx *diagram.Tx) {
	alone := len(in.made) == 0
	plan := in.clip.Plans()[0].ID
	for protector := range in.clip.ProtectorsOf(plan) {
		if _, copied := in.editor.doc.Protector(protector.ID); copied { // and not cut: it is one more, which hangs nowhere yet
			protector.Installed = diagram.Installed{}
		}
		protector.ID = tx.NewProtectorID()
		protector.Plan, protector.Bus = in.editor.plan, in.ids[protector.Bus]
		protector.Name = in.named.fresh(protector.Name)
		tx.SetProtector(protector)
		if alone {
			in.made = append(in.made, protector.ID)
		}
	}
}
