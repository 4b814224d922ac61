package picture

// Factors of the inverse transform (T.81, A.3.3) for four pixels in place of
// eight, in parts of 4,096. Those of the first and third coefficient are one,
// as are all of them for one or two pixels.
const (
	partBits = 12
	c1       = 5352 // √2 · cos(π/8)
	c3       = 2217 // √2 · cos(3π/8)
)

// inverse turns a block's side by side coarsest coefficients into as many
// pixels: what the inverse transform of that size gives, which for one is the
// mean of the block.
func inverse(f *[16]int64, side int, pix []byte, stride int) {
	switch side {
	case 1:
		pix[0] = level(f[0], 0)
	case 2:
		a, b, c, d := f[0]+f[1], f[0]-f[1], f[2]+f[3], f[2]-f[3]
		pix[0], pix[1] = level(a+c, 0), level(b+d, 0)
		pix[stride], pix[stride+1] = level(a-c, 0), level(b-d, 0)
	case 4:
		for i := range 4 {
			f[i], f[4+i], f[8+i], f[12+i] = four(f[i], f[4+i], f[8+i], f[12+i])
		}
		for i := range 4 {
			a, b, c, d := four(f[4*i], f[4*i+1], f[4*i+2], f[4*i+3])
			row := pix[i*stride:][:4]
			row[0], row[1], row[2], row[3] = level(a, 2*partBits), level(b, 2*partBits), level(c, 2*partBits), level(d, 2*partBits)
		}
	}
}

// four is the inverse transform of four coefficients, times 4,096.
func four(f0, f1, f2, f3 int64) (a, b, c, d int64) {
	outer, inner := (f0+f2)<<partBits, (f0-f2)<<partBits
	steep, flat := f1*c1+f3*c3, f1*c3-f3*c1
	return outer + steep, inner + flat, inner - flat, outer - steep
}

// level is a pixel of eight times a value in that many bits of parts, rounded,
// from the middle grey that coefficients start from.
func level(v int64, bits uint) byte {
	bits += 3
	return byte(max(0, min(255, 128+(v+1<<(bits-1))>>bits)))
}
