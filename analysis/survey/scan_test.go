package survey

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestScan(t *testing.T) {
	for _, row := range []struct {
		name, text string
		rows       [][]string
		unclosed   []int
	}{
		{"nothing", "", nil, nil},
		{"plain", "a,b\r\nc,d\n", [][]string{{"a", "b"}, {"c", "d"}}, nil},
		{"without a last line end", "a,b", [][]string{{"a", "b"}}, nil},
		{"old line ends", "a\rb\r", [][]string{{"a"}, {"b"}}, nil},
		{"blank cells and rows", ",\n\n,", [][]string{{"", ""}, {""}, {"", ""}}, nil},
		{"a separator at the end", "a,", [][]string{{"a", ""}}, nil},
		{"quoted", `"a,b","c""d","e` + "\r\n" + `f"`, [][]string{{"a,b", `c"d`, "e\r\nf"}}, nil},
		{"spaces round a quoted cell", ` "a,b" , c`, [][]string{{"a,b", " c"}}, nil},
		{"inches", `18",b`, [][]string{{`18"`, "b"}}, nil},
		{"never closed", "a,\"b\nc,d", [][]string{{"a", `"b`}, {"c", "d"}}, []int{0}},
		{"closed by the next row", "\"a\n\"b\",c", [][]string{{`"a`}, {"b", "c"}}, []int{0}},
		{"text behind the mark", `"a"b,c`, [][]string{{`"a"b`, "c"}}, []int{0}},
		{"as long as a text may be", `"` + strings.Repeat("x", 65_535) + `",b`, [][]string{{strings.Repeat("x", 65_535), "b"}}, nil},
		{"too long to be a text", `"` + strings.Repeat("x", 65_536) + `",b`, [][]string{{`"` + strings.Repeat("x", 65_536) + `"`, "b"}}, []int{0}},
	} {
		rows, unclosed := scan(row.text, ',')
		if diff := cmp.Diff(rows, row.rows); diff != "" {
			t.Errorf("%s (-got +want):\n%s", row.name, diff)
		}
		if diff := cmp.Diff(unclosed, row.unclosed); diff != "" {
			t.Errorf("%s, rows not closed (-got +want):\n%s", row.name, diff)
		}
	}
}

func TestDecoded(t *testing.T) {
	for name, row := range map[string]struct {
		file, text string
		noted      bool
	}{
		"plain":           {"a", "a", false},
		"mark":            {"\xef\xbb\xbfä", "ä", false},
		"UTF-16 little":   {"\xff\xfea\x00\xe4\x00", "aä", false},
		"UTF-16 big":      {"\xfe\xff\x00a\x00\xe4", "aä", false},
		"half a unit":     {"\xff\xfea\x00b", "a", false},
		"Windows-1252":    {"\x80 \xe4\x93\x94", "€ ä“”", true},
		"undefined there": {"\x81", "\ufffd", true},
	} {
		text, note := decoded([]byte(row.file))
		if text != row.text || (note != "") != row.noted {
			t.Errorf("%s: got %q, %q", name, text, note)
		}
	}
}

func TestNameplate(t *testing.T) {
	for text, want := range map[string]string{
		"208Y/120": "208Y/120", "480Y/277 V": "480Y/277", "120/208V": "208Y/120", "400/230 V": "400Y/230", "600Y/347 3PH 4W": "600Y/347",
		"120/240": "120/240", "120/240 V 1PH, 3-wire": "120/240", "220Y/127": "220Y/127",
		"240/120": "", "480": "", "480Y/300": "", "208Y": "", "0/0": "", "00/00": "", "": "", "999999/577000": "",
	} {
		got, found := nameplate(text)
		if found != (want != "") || found && got.String() != want {
			t.Errorf("%q: got %s, %t; want %q", text, got, found, want)
		}
	}
}

func TestIsDate(t *testing.T) {
	for text, want := range map[string]bool{
		"14-Dec": true, "Dec-14": true, "14. Mai": true, "12/14/2026": true, "2026-12-14": true, "3-Mar-26": true, "Dez 14": true,
		"12-14": false, "31, 33": false, "1/3": false, "left": false, "": false, "Mayor 3 rows": false, "12.14": false,
	} {
		if got := isDate(text); got != want {
			t.Errorf("%q: got %t, want %t", text, got, want)
		}
	}
}
