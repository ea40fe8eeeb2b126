package report

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"clampline/diagram/unit"
)

// Format is how something that leaves the program is written.
type Format string

// The formats, which are also the endings of their files.
const (
	PNG  Format = ".png"
	SVG  Format = ".svg"
	PDF  Format = ".pdf"
	DXF  Format = ".dxf"
	XLSX Format = ".xlsx"
	CSV  Format = ".csv"
)

// name is what people call the format.
func (f Format) name() string { return strings.ToUpper(strings.TrimPrefix(string(f), ".")) }

// formatOf returns the one of some formats that the ending of the path names.
func formatOf(path string, formats []Format) (Format, error) {
	ending := strings.ToLower(filepath.Ext(path))
	if format := Format(ending); slices.Contains(formats, format) {
		return format, nil
	}
	return "", fmt.Errorf("%q: the ending says the format; use %s", path, endings(formats))
}

// endings lists the endings of formats within a sentence.
func endings(formats []Format) string {
	var out []string
	for _, f := range formats {
		out = append(out, string(f))
	}
	return unit.List(out, "or")
}
