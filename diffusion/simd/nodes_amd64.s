#include "textflag.h"
#include "four_amd64.h"

// func scaleFour(out, v *float64, n int, by float64)
// n is 4 or more; the last four may be taken twice.
TEXT ·scaleFour(SB), NOSPLIT, $0-32
	MOVQ out+0(FP), DI
	MOVQ v+8(FP), BX
	MOVQ n+16(FP), DX
	VBROADCASTSD by+24(FP), Y0
	XORQ AX, AX
	SUBQ $4, DX
scaled:
	VMULPD (BX)(AX*8), Y0, Y1
	VMOVUPD Y1, (DI)(AX*8)
	AGAIN(scaled, rest)
rest:
	VZEROUPPER
	RET

// func addScaledFour(out, v *float64, n int, by float64)
// n is a multiple of four, above zero.
TEXT ·addScaledFour(SB), NOSPLIT, $0-32
	MOVQ out+0(FP), DI
	MOVQ v+8(FP), BX
	MOVQ n+16(FP), DX
	VBROADCASTSD by+24(FP), Y0
	XORQ AX, AX
added:
	VMULPD (BX)(AX*8), Y0, Y1
	VADDPD (DI)(AX*8), Y1, Y1
	VMOVUPD Y1, (DI)(AX*8)
	ADDQ $4, AX
	CMPQ AX, DX
	JLT added
	VZEROUPPER
	RET

// func closeFour(end, e, weight *float64, n int) (errors, field float64)
// n is a multiple of four, above zero.
TEXT ·closeFour(SB), NOSPLIT, $0-48
	MOVQ end+0(FP), DI
	MOVQ e+8(FP), BX
	MOVQ weight+16(FP), SI
	MOVQ n+24(FP), DX
	VXORPD Y0, Y0, Y0
	VXORPD Y1, Y1, Y1
	XORQ AX, AX
closing:
	VMOVUPD (BX)(AX*8), Y4
	VMOVUPD (SI)(AX*8), Y5
	VADDPD (DI)(AX*8), Y4, Y6
	VMOVUPD Y6, (DI)(AX*8)
	VMULPD Y4, Y5, Y7
	VMULPD Y4, Y7, Y7
	VADDPD Y7, Y0, Y0
	VMULPD Y6, Y5, Y8
	VMULPD Y6, Y8, Y8
	VADDPD Y8, Y1, Y1
	ADDQ $4, AX
	CMPQ AX, DX
	JLT closing
	TOGETHER(Y0, X0, X2)
	TOGETHER(Y1, X1, X3)
	VMOVSD X0, errors+32(FP)
	VMOVSD X1, field+40(FP)
	VZEROUPPER
	RET

// func combineFour(stage, sum, y, u0, u1, u2, u3 *float64, n int, a, c *[4]float64)
// n is 4 or more; the last four may be taken twice.
TEXT ·combineFour(SB), NOSPLIT, $0-80
	MOVQ stage+0(FP), DI
	MOVQ sum+8(FP), SI
	MOVQ y+16(FP), BX
	MOVQ u0+24(FP), R8
	MOVQ u1+32(FP), R9
	MOVQ u2+40(FP), R10
	MOVQ u3+48(FP), R11
	MOVQ n+56(FP), DX
	MOVQ a+64(FP), R12
	MOVQ c+72(FP), R13
	VBROADCASTSD 0(R12), Y8
	VBROADCASTSD 8(R12), Y9
	VBROADCASTSD 16(R12), Y10
	VBROADCASTSD 24(R12), Y11
	VBROADCASTSD 0(R13), Y12
	VBROADCASTSD 8(R13), Y13
	VBROADCASTSD 16(R13), Y14
	VBROADCASTSD 24(R13), Y15
	XORQ AX, AX
	SUBQ $4, DX
combine:
	VMOVUPD (R8)(AX*8), Y0
	VMOVUPD (R9)(AX*8), Y1
	VMOVUPD (R10)(AX*8), Y2
	VMOVUPD (R11)(AX*8), Y3
	VMULPD Y0, Y8, Y4
	VMULPD Y1, Y9, Y5
	VADDPD Y5, Y4, Y4
	VADDPD (BX)(AX*8), Y4, Y4
	VMULPD Y2, Y10, Y5
	VMULPD Y3, Y11, Y6
	VADDPD Y6, Y5, Y5
	VADDPD Y5, Y4, Y4
	VMOVUPD Y4, (DI)(AX*8)
	VMULPD Y0, Y12, Y0
	VMULPD Y1, Y13, Y1
	VADDPD Y1, Y0, Y0
	VMULPD Y2, Y14, Y2
	VMULPD Y3, Y15, Y3
	VADDPD Y3, Y2, Y2
	VADDPD Y2, Y0, Y0
	VMOVUPD Y0, (SI)(AX*8)
	AGAIN(combine, combined)
combined:
	VZEROUPPER
	RET

// func combineLastFour(stage, sum, u0, u1, u2, u3, u4 *float64, n int, c *[5]float64)
// n is a multiple of four, above zero.
TEXT ·combineLastFour(SB), NOSPLIT, $0-72
	MOVQ stage+0(FP), DI
	MOVQ sum+8(FP), SI
	MOVQ u0+16(FP), R8
	MOVQ u1+24(FP), R9
	MOVQ u2+32(FP), R10
	MOVQ u3+40(FP), R11
	MOVQ u4+48(FP), BX
	MOVQ n+56(FP), DX
	MOVQ c+64(FP), R13
	VBROADCASTSD 0(R13), Y11
	VBROADCASTSD 8(R13), Y12
	VBROADCASTSD 16(R13), Y13
	VBROADCASTSD 24(R13), Y14
	VBROADCASTSD 32(R13), Y15
	XORQ AX, AX
last:
	VMOVUPD (BX)(AX*8), Y4
	VADDPD (DI)(AX*8), Y4, Y5
	VMOVUPD Y5, (DI)(AX*8)
	VMULPD (R8)(AX*8), Y11, Y0
	VMULPD (R9)(AX*8), Y12, Y1
	VADDPD Y1, Y0, Y0
	VMULPD (R10)(AX*8), Y13, Y2
	VMULPD (R11)(AX*8), Y14, Y3
	VADDPD Y3, Y2, Y2
	VADDPD Y2, Y0, Y0
	VMULPD Y4, Y15, Y4
	VADDPD Y4, Y0, Y0
	VMOVUPD Y0, (SI)(AX*8)
	ADDQ $4, AX
	CMPQ AX, DX
	JLT last
	VZEROUPPER
	RET

// func gatherFour(out, k, field, v, lower, diag, upper *float64, n int)
// rows 1 to n-2; n is 6 or more, and the last four may be taken twice.
TEXT ·gatherFour(SB), NOSPLIT, $0-64
	MOVQ out+0(FP), DI
	MOVQ k+8(FP), SI
	MOVQ field+16(FP), BX
	MOVQ v+24(FP), R8
	MOVQ lower+32(FP), R9
	MOVQ diag+40(FP), R10
	MOVQ upper+48(FP), R11
	MOVQ n+56(FP), DX
	MOVQ $1, AX
	SUBQ $5, DX
gather:
	VMOVUPD (BX)(AX*8), Y0                // g here
	VMOVUPD 8(BX)(AX*8), Y1
	VSUBPD Y0, Y1, Y1
	VMULPD (SI)(AX*8), Y1, Y1             // what flows in from outside
	VSUBPD -8(BX)(AX*8), Y0, Y0
	VMULPD -8(SI)(AX*8), Y0, Y0           // and out towards the axis
	VSUBPD Y0, Y1, Y1
	VMOVUPD (R9)(AX*8), Y2
	VMULPD -8(R8)(AX*8), Y2, Y2
	VMOVUPD (R10)(AX*8), Y3
	VMULPD (R8)(AX*8), Y3, Y3
	VADDPD Y3, Y2, Y2
	VADDPD Y2, Y1, Y1
	VMOVUPD (R11)(AX*8), Y4
	VMULPD 8(R8)(AX*8), Y4, Y4
	VADDPD Y4, Y1, Y1
	VMOVUPD Y1, (DI)(AX*8)
	AGAIN(gather, gathered)
gathered:
	VZEROUPPER
	RET

// func addSquaresFour(sums, x *float64, n int, here float64)
// n is a multiple of four, above zero.
TEXT ·addSquaresFour(SB), NOSPLIT, $0-32
	MOVQ sums+0(FP), DI
	MOVQ x+8(FP), BX
	MOVQ n+16(FP), DX
	VBROADCASTSD here+24(FP), Y0
	XORQ AX, AX
square:
	VSUBPD (BX)(AX*8), Y0, Y1
	VMULPD Y1, Y1, Y1
	VADDPD (DI)(AX*8), Y1, Y1
	VMOVUPD Y1, (DI)(AX*8)
	ADDQ $4, AX
	CMPQ AX, DX
	JLT square
	VZEROUPPER
	RET
