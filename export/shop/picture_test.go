package shop_test

import (
	"image"
	"image/png"
	"os"
	"testing"
)

// picture reads a picture that another program drew.
func picture(t *testing.T, path string) image.Image {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return img
}
