package file_test

import (
	"fmt"
	"io"
	"strings"
	"testing"

	"clampline/diagram/diagramtest"
	"clampline/diagram/file"
)

func BenchmarkRead(b *testing.B) {
	for _, n := range []int{100, 1000, 10000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			text := write(b, diagramtest.Building(n))
			b.SetBytes(int64(len(text)))
			b.ReportAllocs()
			for b.Loop() {
				if _, err := file.Read(strings.NewReader(text)); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkWrite(b *testing.B) {
	for _, n := range []int{100, 1000, 10000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			doc := diagramtest.Building(n)
			b.ReportAllocs()
			for b.Loop() {
				if err := file.Write(io.Discard, doc); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
