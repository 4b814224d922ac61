package main

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"math/rand"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const (
	photoCount            = 80
	photoWide, photoHigh  = 4000, 3000 // 12 megapixels
	photoGrain            = 22         // how far a pixel strays: files of 2 to 4 MB
	photosBays, photosRow = 4, 5
)

// BenchmarkPhotosProcess runs the built program on a wall of 80 products, each
// with a photo of 12 megapixels: go test -run=- -bench=Photos ./cmd/setwright
func BenchmarkPhotosProcess(b *testing.B) {
	dir := b.TempDir()
	source := writePhotos(b, dir)
	size := benchmarkProcess(b, filepath.Join(dir, "plan.yaml"))
	b.ReportMetric(float64(source)/1e6/photoCount, "MB/photo")
	b.ReportMetric(float64(size)/1e6, "MB/pack")
}

// writePhotos writes the plan, its goods and their photos, and returns how many
// bytes the photos take.
func writePhotos(tb testing.TB, dir string) (total int) {
	tb.Helper()
	grain := make([]byte, 1<<20)
	rng := rand.New(rand.NewSource(1))
	for i := range grain {
		grain[i] = uint8((rng.Intn(photoGrain) + rng.Intn(photoGrain)) / 2)
	}
	goods := []byte("sku,name,family,form,width (in),height (in),depth (in),weight (lb),image\n")
	plan := []byte("plan: 1\ntitle: A wall of photos\npaper: letter\ngoods: [goods.csv]\n" +
		"unit: {frame: wall-run, bays: 4, stand: fixed, panels: {front: slat-24x96}}\ndress:\n  front:\n")
	for i := range photoCount {
		goods = fmt.Appendf(goods, "P%02d,Product %02d,Family %d,peg,4,5.5,0.5,0.1,p%02d.jpg\n", i, i, i/20, i)
		file := photo(tb, i, grain)
		total += len(file)
		save(tb, filepath.Join(dir, fmt.Sprintf("p%02d.jpg", i)), file)
	}
	for i := range photosBays * photosRow {
		var skus []string
		for k := range photoCount / photosBays / photosRow {
			skus = append(skus, fmt.Sprintf("P%02d: 1", i*photoCount/photosBays/photosRow+k))
		}
		plan = fmt.Appendf(plan, "    - {use: hook-4-slat, bay: %d, goods: {%s}}\n", i/photosRow+1, strings.Join(skus, ", "))
	}
	save(tb, filepath.Join(dir, "goods.csv"), goods)
	save(tb, filepath.Join(dir, "plan.yaml"), plan)
	return total
}

// photo is the JPEG of a picture like a camera's: large soft shapes, another
// for every n, under a grain that keeps its file as large as a real one's.
func photo(tb testing.TB, n int, grain []byte) []byte {
	tb.Helper()
	img := image.NewYCbCr(image.Rect(0, 0, photoWide, photoHigh), image.YCbCrSubsampleRatio420)
	for y := range photoHigh {
		row := img.Y[y*img.YStride:][:photoWide]
		from := (y*7919 + n*104729) % (len(grain) - photoWide)
		for x, g := range grain[from : from+photoWide] {
			edge := (x*(n+3)/700 + y*(n+5)/900) % 2 * 40
			row[x] = uint8(60+x*80/photoWide+y*40/photoHigh+edge) + g
		}
	}
	for i := range img.Cb {
		img.Cb[i] = uint8(90 + n + i%img.CStride*60/img.CStride)
		img.Cr[i] = uint8(170 - n - i/img.CStride*50/photoHigh)
	}
	var out bytes.Buffer
	if err := jpeg.Encode(&out, img, &jpeg.Options{Quality: 88}); err != nil {
		tb.Fatal(err)
	}
	return out.Bytes()
}

func save(tb testing.TB, name string, data []byte) {
	tb.Helper()
	if err := os.WriteFile(name, data, 0o666); err != nil {
		tb.Fatal(err)
	}
}
