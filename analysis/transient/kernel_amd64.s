#include "textflag.h"

// What each does stands beside its form in Go, in kernel.go. Sums are added up in the
// same order there. A ring's places are multiplied by the 32 bytes of a wave.

// func arriveWide(out, rows *float64, width int, from *wave, mask, last, n int, weight *wave)
TEXT ·arriveWide(SB), NOSPLIT, $0-64
	MOVQ out+0(FP), DI
	MOVQ rows+8(FP), SI
	MOVQ width+16(FP), R8
	MOVQ from+24(FP), DX
	MOVQ mask+32(FP), R9
	MOVQ last+40(FP), AX
	MOVQ n+48(FP), CX
	MOVQ weight+56(FP), BX
	SHLQ $3, R8
	SHLQ $5, R9
	SHLQ $5, AX
	VBROADCASTSD 0(BX), Y0
	VBROADCASTSD 8(BX), Y1
	VBROADCASTSD 16(BX), Y2
	VBROADCASTSD 24(BX), Y3

arriveStep:
	LEAQ -32(AX), R10
	LEAQ -64(AX), R11
	LEAQ -96(AX), R12
	MOVQ AX, R13
	ANDQ R9, R13
	ANDQ R9, R10
	ANDQ R9, R11
	ANDQ R9, R12
	VMULPD (DX)(R13*1), Y0, Y4
	VMULPD (DX)(R10*1), Y1, Y5
	VMULPD (DX)(R11*1), Y2, Y6
	VMULPD (DX)(R12*1), Y3, Y7
	VADDPD Y5, Y4, Y4
	VADDPD Y7, Y6, Y6
	VADDPD Y6, Y4, Y4
	VMOVUPD Y4, (DI)
	VADDPD (SI), Y4, Y5
	VMOVUPD Y5, (SI)
	ADDQ $32, DI
	ADDQ R8, SI
	ADDQ $32, AX
	DECQ CX
	JNZ arriveStep
	VZEROUPPER
	RET

// SUM is the product of the four columns a, b, c and d with the numbers at x, in out.
#define SUM(a, b, c, d, x, out, y, z, w) \
	VBROADCASTSD 0(x), out \
	VBROADCASTSD 8(x), y \
	VBROADCASTSD 16(x), z \
	VBROADCASTSD 24(x), w \
	VMULPD a, out, out \
	VMULPD b, y, y \
	VMULPD c, z, z \
	VMULPD d, w, w \
	VADDPD y, out, out \
	VADDPD w, z, z \
	VADDPD z, out, out

// func leaveWide(to *wave, mask, next, n int, volts *float64, width int, arrives *float64, send, turn *square4)
TEXT ·leaveWide(SB), NOSPLIT, $0-72
	MOVQ to+0(FP), DI
	MOVQ mask+8(FP), R9
	MOVQ next+16(FP), AX
	MOVQ n+24(FP), CX
	MOVQ volts+32(FP), SI
	MOVQ width+40(FP), R8
	MOVQ arrives+48(FP), DX
	MOVQ send+56(FP), BX
	MOVQ turn+64(FP), R10
	SHLQ $3, R8
	SHLQ $5, R9
	SHLQ $5, AX
	VMOVUPD 0(BX), Y8
	VMOVUPD 32(BX), Y9
	VMOVUPD 64(BX), Y10
	VMOVUPD 96(BX), Y11
	VMOVUPD 0(R10), Y12
	VMOVUPD 32(R10), Y13
	VMOVUPD 64(R10), Y14
	VMOVUPD 96(R10), Y15

leaveStep:
	SUM(Y8, Y9, Y10, Y11, SI, Y0, Y1, Y2, Y3)
	SUM(Y12, Y13, Y14, Y15, DX, Y4, Y5, Y6, Y7)
	VADDPD Y4, Y0, Y0
	MOVQ AX, R11
	ANDQ R9, R11
	VMOVUPD Y0, (DI)(R11*1)
	ADDQ R8, SI
	ADDQ $32, DX
	ADDQ $32, AX
	DECQ CX
	JNZ leaveStep
	VZEROUPPER
	RET

// RAISE raises volts and steps to the magnitude of v, where that is greater.
#define RAISE(v, volts, steps, mask) \
	VANDPD Y13, v, v \
	VCMPPD $0x1E, volts, v, mask \
	VBLENDVPD mask, v, volts, volts \
	VBLENDVPD mask, Y11, steps, steps

// func raiseWide(e *extremes, volts *float64, width, n int, mains *wave, first float64)
TEXT ·raiseWide(SB), NOSPLIT, $0-48
	MOVQ e+0(FP), DI
	MOVQ volts+8(FP), SI
	MOVQ width+16(FP), R8
	MOVQ n+24(FP), CX
	MOVQ mains+32(FP), BX
	VBROADCASTSD first+40(FP), Y11
	SHLQ $3, R8
	VMOVUPD (BX), Y10
	MOVQ $0x3FF0000000000000, AX
	VMOVQ AX, X12
	VBROADCASTSD X12, Y12
	MOVQ $0x7FFFFFFFFFFFFFFF, AX
	VMOVQ AX, X13
	VBROADCASTSD X13, Y13
	VMOVUPD 0(DI), Y4
	VMOVUPD 32(DI), Y5
	VMOVUPD 64(DI), Y6
	VMOVUPD 96(DI), Y7
	VMOVUPD 128(DI), Y8
	VMOVUPD 160(DI), Y9

raiseStep:
	VADDPD (SI), Y10, Y0
	VPERMPD $0x39, Y0, Y1
	VPERMPD $0x4E, Y0, Y2
	VSUBPD Y1, Y0, Y1
	VSUBPD Y2, Y0, Y2
	RAISE(Y0, Y4, Y7, Y3)
	RAISE(Y1, Y5, Y8, Y14)
	RAISE(Y2, Y6, Y9, Y15)
	VADDPD Y12, Y11, Y11
	ADDQ R8, SI
	DECQ CX
	JNZ raiseStep
	VMOVUPD Y4, 0(DI)
	VMOVUPD Y5, 32(DI)
	VMOVUPD Y6, 64(DI)
	VMOVUPD Y7, 96(DI)
	VMOVUPD Y8, 128(DI)
	VMOVUPD Y9, 160(DI)
	VZEROUPPER
	RET

// EIGHT is the sum of the eight columns at c with the numbers in Y0 to Y7.
#define EIGHT(c, even, odd, y, z) \
	VMULPD c+0(BX), Y0, even \
	VMULPD c+32(BX), Y1, odd \
	VMULPD c+64(BX), Y2, y \
	VMULPD c+96(BX), Y3, z \
	VADDPD y, even, even \
	VADDPD z, odd, odd \
	VMULPD c+128(BX), Y4, y \
	VMULPD c+160(BX), Y5, z \
	VADDPD y, even, even \
	VADDPD z, odd, odd \
	VMULPD c+192(BX), Y6, y \
	VMULPD c+224(BX), Y7, z \
	VADDPD y, even, even \
	VADDPD z, odd, odd \
	VADDPD odd, even, even

// func stepsWide(sum, volts, drive *float64, width, n int, in, out *wave)
TEXT ·stepsWide(SB), NOSPLIT, $0-56
	MOVQ sum+0(FP), BX
	MOVQ volts+8(FP), DI
	MOVQ drive+16(FP), SI
	MOVQ width+24(FP), R8
	MOVQ n+32(FP), CX
	MOVQ in+40(FP), DX
	MOVQ out+48(FP), R9
	SHLQ $3, R8
	VMOVUPD (R9), Y8

stepsStep:
	VMOVUPD Y8, (DX)
	VBROADCASTSD 0(SI), Y0
	VBROADCASTSD 8(SI), Y1
	VBROADCASTSD 16(SI), Y2
	VBROADCASTSD 24(SI), Y3
	VBROADCASTSD 0(DX), Y4
	VBROADCASTSD 8(DX), Y5
	VBROADCASTSD 16(DX), Y6
	VBROADCASTSD 24(DX), Y7
	EIGHT(256, Y8, Y9, Y10, Y11)
	EIGHT(0, Y12, Y13, Y14, Y15)
	VMOVUPD Y12, (DI)
	ADDQ R8, SI
	ADDQ R8, DI
	DECQ CX
	JNZ stepsStep
	VMOVUPD Y8, (R9)
	VZEROUPPER
	RET

// func timesWide(out, values, x *float64, columns, groups int)
TEXT ·timesWide(SB), NOSPLIT, $0-40
	MOVQ out+0(FP), DI
	MOVQ values+8(FP), SI
	MOVQ x+16(FP), DX
	MOVQ columns+24(FP), BX
	MOVQ groups+32(FP), CX

	MOVQ BX, R10
	SHLQ $5, R10 // bytes of a group
	SUBQ $2, CX
	JLT timesOdd

timesTwo: // groups at once
	VXORPD Y0, Y0, Y0
	VXORPD Y1, Y1, Y1
	VXORPD Y4, Y4, Y4
	VXORPD Y5, Y5, Y5
	MOVQ DX, R8
	LEAQ (SI)(R10*1), R11
	MOVQ BX, R9
	SUBQ $2, R9
	JLT timesTwoLast

timesTwoPair:
	VBROADCASTSD 0(R8), Y2
	VBROADCASTSD 8(R8), Y3
	VMULPD 0(SI), Y2, Y6
	VMULPD 32(SI), Y3, Y7
	VMULPD 0(R11), Y2, Y2
	VMULPD 32(R11), Y3, Y3
	VADDPD Y6, Y0, Y0
	VADDPD Y7, Y1, Y1
	VADDPD Y2, Y4, Y4
	VADDPD Y3, Y5, Y5
	ADDQ $16, R8
	ADDQ $64, SI
	ADDQ $64, R11
	SUBQ $2, R9
	JGE timesTwoPair

timesTwoLast:
	CMPQ R9, $-1
	JNE timesTwoSum
	VBROADCASTSD 0(R8), Y2
	VMULPD 0(SI), Y2, Y6
	VMULPD 0(R11), Y2, Y2
	VADDPD Y6, Y0, Y0
	VADDPD Y2, Y4, Y4
	ADDQ $32, R11

timesTwoSum:
	VADDPD Y1, Y0, Y0
	VADDPD Y5, Y4, Y4
	VMOVUPD Y0, 0(DI)
	VMOVUPD Y4, 32(DI)
	ADDQ $64, DI
	MOVQ R11, SI
	SUBQ $2, CX
	JGE timesTwo

timesOdd:
	ADDQ $2, CX
	JZ timesDone
	VXORPD Y0, Y0, Y0
	VXORPD Y1, Y1, Y1
	SUBQ $2, BX
	JLT timesLast

timesPair:
	VBROADCASTSD 0(DX), Y2
	VBROADCASTSD 8(DX), Y3
	VMULPD 0(SI), Y2, Y2
	VMULPD 32(SI), Y3, Y3
	VADDPD Y2, Y0, Y0
	VADDPD Y3, Y1, Y1
	ADDQ $16, DX
	ADDQ $64, SI
	SUBQ $2, BX
	JGE timesPair

timesLast:
	CMPQ BX, $-1
	JNE timesSum
	VBROADCASTSD 0(DX), Y2
	VMULPD 0(SI), Y2, Y2
	VADDPD Y2, Y0, Y0

timesSum:
	VADDPD Y1, Y0, Y0
	VMOVUPD Y0, (DI)

timesDone:
	VZEROUPPER
	RET
