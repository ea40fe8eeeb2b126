package table

import (
	"bytes"
	"strings"
	"testing"
	"time"
)

func workbookOf(day time.Time) Workbook {
	one := SheetOf("One", basket(), fruits)
	one.Above, one.Below = []string{"Fruits", strings.Repeat("a caution ", 100)}, []string{"a note"}
	return Workbook{Title: "Fruits", Author: "=cmd", Created: day, Sheets: []Sheet{one, SheetOf("Two", basket()[:2], nil)}}
}

// The same workbook gives the same bytes, and its day is in them.
func TestXLSXIsTheSameEachTime(t *testing.T) {
	write := func(day time.Time) []byte {
		var out bytes.Buffer
		if err := workbookOf(day).WriteXLSX(&out); err != nil {
			t.Fatal(err)
		}
		return out.Bytes()
	}
	day := time.Date(2026, 11, 2, 0, 0, 0, 0, time.UTC)
	for range 5 {
		if !bytes.Equal(write(day), write(day)) {
			t.Fatal("two runs differ")
		}
	}
	if bytes.Equal(write(day), write(day.AddDate(0, 0, 1))) || bytes.Equal(write(day), write(time.Time{})) {
		t.Error("the day is not in it")
	}
}

// What no workbook takes is an error, not a file with something missing.
func TestXLSXRefusals(t *testing.T) {
	for name, b := range map[string]Workbook{
		"a name that is too long": {Sheets: []Sheet{SheetOf(strings.Repeat("x", 40), basket(), fruits)}},
		"a text that is too wide": {Sheets: []Sheet{{Name: "A", heads: []string{"a"}, widths: []float64{1000}}}},
	} {
		if err := b.WriteXLSX(&bytes.Buffer{}); err == nil {
			t.Errorf("%s is taken", name)
		}
	}
}
