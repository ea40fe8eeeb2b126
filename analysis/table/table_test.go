package table

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"
)

type fruit struct {
	name  string
	grams float64
	ripe  bool
}

// basket has every sort of column.
func basket() []Column[fruit] {
	return []Column[fruit]{
		{Name: "name", Head: "NAME", Most: 6, Value: func(f fruit) any { return f.name }, Cell: func(f fruit) string { return f.name }},
		{
			Name: "grams", Help: "null where it was not weighed", Head: "g", Right: true, Least: 5, Gap: 1,
			Value: func(f fruit) any {
				if f.grams == 0 {
					return nil
				}
				return f.grams
			},
			Cell: func(f fruit) string { return strings.Repeat("1", int(f.grams)) },
			Rest: func(f fruit) string {
				if f.grams == 0 {
					return "was not weighed"
				}
				return ""
			},
		},
		{Name: "ripe", Optional: true, Value: func(f fruit) any {
			if f.ripe {
				return true
			}
			return nil
		}},
		{Head: "LIKE", Gap: 2, Cell: func(f fruit) string { return map[bool]string{true: "<y>"}[f.ripe] }},
	}
}

var fruits = []fruit{{"<äpfel>", 2, true}, {"fig", 0, false}, {"pear", 3, false}}

func TestText(t *testing.T) {
	var out strings.Builder
	if err := Text(&out, basket(), fruits, "--\n"); err != nil {
		t.Fatal(err)
	}
	want := "NAME       g  LIKE\n--\n<äpfel>    11  <y>\nfig    was not weighed\npear     111\n"
	if out.String() != want {
		t.Errorf("got\n%swant\n%s", out.String(), want)
	}
}

// A column is as wide as its widest cell, as few and as many characters as it says;
// a text in the place of cells has all the room to the end of the line, leaves out
// what stands there and widens nothing.
func TestWidths(t *testing.T) {
	words := func(of func(f fruit) string) Column[fruit] { return Column[fruit]{Cell: of, Gap: 1} }
	first := words(func(f fruit) string { return f.name })
	short := words(func(f fruit) string { return f.name })
	short.Most = 1
	rest := words(func(f fruit) string { return strings.Repeat("1", int(f.grams)) })
	rest.Right = true
	rest.Rest = func(f fruit) string { return map[bool]string{true: "is ripe and is eaten"}[f.ripe] }
	last := words(func(fruit) string { return "kept" })
	var out strings.Builder
	if err := Text(&out, []Column[fruit]{first, short, rest, last}, []fruit{{"fig", 4, false}, {"quince", 30, true}, {"apple", 2, false}}, ""); err != nil {
		t.Fatal(err)
	}
	want := "\n" + " fig    fig 1111 kept\n" + " quince quince is ripe and is eaten\n" + " apple  apple   11 kept\n"
	if out.String() != want {
		t.Errorf("got\n%swant\n%s", out.String(), want)
	}
}

var errFull = errors.New("no space left")

// full is a disk that takes nothing.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestFullDiskIsTold(t *testing.T) {
	for name, write := range map[string]func() error{
		"text":           func() error { return Text(full{}, basket(), fruits, "") },
		"CSV":            func() error { return CSV(full{}, basket()[:2], fruits) },
		"CSV of nothing": func() error { return CSV(full{}, basket()[:2], nil) },
		"XLSX":           func() error { return Workbook{Sheets: []Sheet{SheetOf("A", basket(), fruits)}}.WriteXLSX(full{}) },
	} {
		if err := write(); !errors.Is(err, errFull) {
			t.Errorf("%s: got %v", name, err)
		}
	}
}

func TestCSV(t *testing.T) {
	var out strings.Builder
	if err := CSV(&out, basket()[:2], fruits); err != nil {
		t.Fatal(err)
	}
	if want := "name,grams\n<äpfel>,2\nfig,\npear,3\n"; out.String() != want {
		t.Errorf("got %q, want %q", out.String(), want)
	}
}

func TestRecords(t *testing.T) {
	var out strings.Builder
	encoder := json.NewEncoder(&out)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(Records(basket(), fruits)); err != nil {
		t.Fatal(err)
	}
	want := `[{"name":"<äpfel>","grams":2,"ripe":true},{"name":"fig","grams":null},{"name":"pear","grams":3}]` + "\n"
	if out.String() != want {
		t.Errorf("got %s, want %s", out.String(), want)
	}
	if got := len(Records(basket(), nil)); got != 0 {
		t.Errorf("got %d records of nothing", got)
	}
	if _, err := RecordOf([]Column[fruit]{{Name: "never", Value: func(fruit) any { return func() {} }}}, fruit{}).MarshalJSON(); err == nil {
		t.Error("a value that JSON does not have is written")
	}
}

func TestHelp(t *testing.T) {
	if got, want := Help(basket()), "name, grams (null where it was not weighed), ripe"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
