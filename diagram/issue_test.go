package diagram_test

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/gif"
	"image/jpeg"
	"image/png"
	"strings"
	"testing"

	"clampline/diagram"
)

// picture returns a file of an image of the size.
func picture(t *testing.T, encode func(*bytes.Buffer, image.Image) error, width, height int) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := encode(&out, image.NewGray(image.Rect(0, 0, width, height))); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func asPNG(to *bytes.Buffer, i image.Image) error  { return png.Encode(to, i) }
func asJPEG(to *bytes.Buffer, i image.Image) error { return jpeg.Encode(to, i, nil) }
func asGIF(to *bytes.Buffer, i image.Image) error  { return gif.Encode(to, i, nil) }

// A PNG or JPEG that is small enough comes back as it was; a sheet takes nothing else.
func TestImages(t *testing.T) {
	small := picture(t, asPNG, 40, 20)
	for name, row := range map[string]struct {
		file []byte
		want string // of the error
	}{
		"PNG": {small, ""}, "JPEG": {picture(t, asJPEG, 40, 20), ""}, "the most pixels": {picture(t, asPNG, 1000, 1000), ""},
		"GIF": {picture(t, asGIF, 40, 20), "no PNG or JPEG"}, "no image": {[]byte("logo"), "no PNG or JPEG"}, "empty": {nil, "no PNG or JPEG"},
		"cut short": {small[:len(small)-20], "no PNG or JPEG"}, "too many pixels": {picture(t, asPNG, 1001, 1000), "1001 by 1000 pixels"},
		"too many bytes": {append(small, make([]byte, diagram.MostImage)...), "at most 200000"},
	} {
		text, err := diagram.EncodeImage(row.file)
		doc := diagram.New()
		_, refused := doc.Edit(func(tx *diagram.Tx) error {
			tx.SetInfo(diagram.Info{Issue: diagram.Issue{Logo: base64.StdEncoding.EncodeToString(row.file)}})
			return nil
		})
		if row.want == "" {
			if err != nil || refused != nil || !bytes.Equal(doc.Info().Issue.LogoFile(), row.file) || text != doc.Info().Issue.Logo {
				t.Errorf("%s: %v, %v", name, err, refused)
			}
			continue
		}
		if err == nil || !strings.Contains(err.Error(), row.want) {
			t.Errorf("%s: got %v, want %q", name, err, row.want)
		}
		if name != "empty" && (refused == nil || !strings.Contains(refused.Error(), "issue.logo: the image cannot be used: ")) {
			t.Errorf("%s: a sheet says %v", name, refused)
		}
	}
	if got := (diagram.Issue{}).LogoFile(); got != nil {
		t.Errorf("without a logo: %d bytes", len(got))
	}
}
