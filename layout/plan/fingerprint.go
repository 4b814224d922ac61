package plan

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
)

// Fingerprint is a short mark of what a pack was made from: the plan and the
// parts and goods files it names, in their order. Two packs with different
// marks were made from different files; with the same mark they were, but for
// chance of one in four thousand million, made from the same.
//
// It is the first 32 bits of the SHA-256 (FIPS 180-4) of the texts, each after
// its length, as 7F3A-91C2.
func Fingerprint(texts ...[]byte) string {
	h := sha256.New()
	for _, text := range texts {
		var length [8]byte
		binary.BigEndian.PutUint64(length[:], uint64(len(text)))
		h.Write(length[:])
		h.Write(text)
	}
	sum := h.Sum(nil)
	return fmt.Sprintf("%02X%02X-%02X%02X", sum[0], sum[1], sum[2], sum[3])
}
