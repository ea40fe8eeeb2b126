package survey

import (
	"bytes"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// decoded returns the text of a table that a spreadsheet wrote, and what it was
// taken to be where it is not UTF-8.
func decoded(file []byte) (text, note string) {
	if bytes.HasPrefix(file, []byte("\xff\xfe")) || bytes.HasPrefix(file, []byte("\xfe\xff")) {
		whole := file[:len(file)&^1] // what is half a letter says nothing
		out, _ := unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewDecoder().Bytes(whole)
		return string(out), ""
	}
	file = bytes.TrimPrefix(file, []byte("\ufeff"))
	if utf8.Valid(file) {
		return string(file), ""
	}
	out, _ := charmap.Windows1252.NewDecoder().Bytes(file)
	return string(out), "The table is not UTF-8. It was read as Windows-1252, as spreadsheets write; look at letters with accents."
}
