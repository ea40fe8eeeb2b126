package file

import (
	"fmt"
	"io"
	"iter"
	"slices"
	"strconv"

	"github.com/goccy/go-json"

	"clampline/diagram"
)

// Write writes the document in the current version of the format. Equal
// documents give equal bytes. Besides errors of w there are two reasons
// to fail: an Extra that is no JSON object, and a sheet larger than Read takes.
func Write(w io.Writer, doc *diagram.Document) error {
	text, err := encode(doc, false)
	if err != nil {
		return err
	}
	_, err = w.Write(text)
	return err
}

// encode returns the text of a sheet, with a checksum where it is to have one.
func encode(doc *diagram.Document, withChecksum bool) ([]byte, error) {
	info := doc.Info()
	extra, err := extraOf(info.Extra, 0)
	if err != nil {
		return nil, fmt.Errorf("info: %w", err)
	}
	w := &writer{extra: extra}
	w.header(sheets(), schemaAddress)
	w.checksum(withChecksum)
	infoFields(w, &info)
	w.shown(doc)
	putAll(w, "plans", byID(doc.Plans(), func(p diagram.Plan) diagram.ID { return p.ID }), planFields)
	putAll(w, "parts", doc.Parts(), partFields)
	putAll(w, "feeders", doc.Feeders(), feederFields)
	putAll(w, "protectors", doc.Protectors(), protectorFields)
	putSome(w, "surges", doc.Surges(), func(s diagram.Surge) diagram.ID { return s.ID }, surgeFields)
	putSome(w, asidesName, slices.Collect(doc.Asides()), func(a diagram.Aside) diagram.ID { return a.ID }, asideFields)
	w.putExtra()
	if w.err != nil {
		return nil, w.err
	}
	return w.printed(sheets(), withChecksum)
}

// checksum makes room for a checksum.
func (w *writer) checksum(wanted bool) {
	w.skip(checksumName)
	if wanted {
		w.put(checksumName, blankChecksum())
	}
}

// shownName is the plan that was looked at last.
const shownName = "shown"

// shown tells which plan was looked at last, where that is not the first.
func (w *writer) shown(doc *diagram.Document) {
	plan := doc.Shown()
	if plan == doc.Plans()[0].ID {
		plan = ""
	}
	w.text(shownName, string(plan), nil)
}

// printed is print with the checksum in its room.
func (w *writer) printed(f family, withChecksum bool) ([]byte, error) {
	text, err := w.print(f)
	if err != nil || !withChecksum {
		return text, err
	}
	return sealed(text), nil
}

// header begins a file of the family.
func (w *writer) header(f family, address string) {
	w.put("$schema", address)
	w.put("format", f.format)
	w.put("version", json.Number(strconv.Itoa(f.version)))
}

// print returns the text of a file of the family.
func (w *writer) print(f family) ([]byte, error) {
	text := append(appendValue(nil, w.out, 0), '\n')
	if len(text) > maxSize {
		return nil, fmt.Errorf("the %s takes more than %d MiB, which could not be read again; divide it into two", f.noun, maxSize>>20)
	}
	return text, nil
}

// byID yields records that are listed otherwise in the order of their ids.
func byID[R any](records []R, id func(R) diagram.ID) iter.Seq[R] {
	slices.SortFunc(records, func(a, b R) int { return diagram.CompareID(id(a), id(b)) })
	return slices.Values(records)
}

// asidesName is the list of findings that are set aside.
const asidesName = "setAside"

// putSome writes a list where there is something in it. Such lists came after the
// others, and a sheet without any is written as before.
func putSome[R any](w *writer, name string, records []R, id func(R) diagram.ID, describe func(fields, *R)) {
	if len(records) == 0 {
		w.skip(name)
		return
	}
	putAll(w, name, byID(records, id), describe)
}

// putAll writes the records as a list, which stands even where it is empty.
func putAll[R any](w *writer, name string, records iter.Seq[R], describe func(fields, *R)) {
	items := []any{}
	for record := range records {
		one := &writer{}
		describe(one, &record)
		if one.err != nil && w.err == nil {
			w.err = one.err
		}
		items = append(items, one.out)
	}
	w.put(name, items)
}

func extraOf(text string, depth int) (map[string]any, error) {
	if text == "" {
		return nil, nil
	}
	members, err := decodeExtra(text, depth)
	if err != nil {
		return nil, fmt.Errorf("its extra members are no JSON object: %w", err)
	}
	return members, nil
}
