package raster

import (
	"io"
	"testing"

	"clampline/diagram/draw"
)

// BenchmarkWritePNG exports a page of 2 million pixels.
func BenchmarkWritePNG(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if err := WritePNG(io.Discard, sample(), draw.Light(), 20, 0); err != nil {
			b.Fatal(err)
		}
	}
}
