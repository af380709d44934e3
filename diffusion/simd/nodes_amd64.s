#include "textflag.h"

// The sum of the four in Y0 to the first of X0, and likewise of Y1: those side by side first. X2 and X3 are worked in.
#define TOGETHER(y0, x0, x2) \
	VEXTRACTF128 $1, y0, x2       \
	VHADDPD x0, x0, x0            \
	VHADDPD x2, x2, x2            \
	VADDSD x2, x0, x0

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
	CMPQ AX, DX
	JEQ rest
	ADDQ $4, AX
	CMPQ AX, DX
	JLE scaled
	MOVQ DX, AX
	JMP scaled
rest:
	VZEROUPPER
	RET

// func addScaledFour(out, v *float64, n int, by float64)
TEXT ·addScaledFour(SB), NOSPLIT, $0-32
	MOVQ out+0(FP), DI
	MOVQ v+8(FP), BX
	MOVQ n+16(FP), DX
	VBROADCASTSD by+24(FP), Y0
	XORQ AX, AX
	SUBQ $4, DX
added:
	VMULPD (BX)(AX*8), Y0, Y1
	VADDPD (DI)(AX*8), Y1, Y1
	VMOVUPD Y1, (DI)(AX*8)
	ADDQ $4, AX
	CMPQ AX, DX
	JLE added
	ADDQ $4, DX
	JMP left
add:
	VMULSD (BX)(AX*8), X0, X1
	VADDSD (DI)(AX*8), X1, X1
	VMOVSD X1, (DI)(AX*8)
	INCQ AX
left:
	CMPQ AX, DX
	JLT add
	VZEROUPPER
	RET

// func closeFour(end, e, weight *float64, n int) (errors, field float64)
TEXT ·closeFour(SB), NOSPLIT, $0-48
	MOVQ end+0(FP), DI
	MOVQ e+8(FP), BX
	MOVQ weight+16(FP), SI
	MOVQ n+24(FP), DX
	VXORPD Y0, Y0, Y0
	VXORPD Y1, Y1, Y1
	XORQ AX, AX
	SUBQ $4, DX
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
	JLE closing
	TOGETHER(Y0, X0, X2)
	TOGETHER(Y1, X1, X3)
	ADDQ $4, DX
	JMP over
close:
	VMOVSD (BX)(AX*8), X4
	VMOVSD (SI)(AX*8), X5
	VADDSD (DI)(AX*8), X4, X6
	VMOVSD X6, (DI)(AX*8)
	VMULSD X4, X5, X7
	VMULSD X4, X7, X7
	VADDSD X7, X0, X0
	VMULSD X6, X5, X8
	VMULSD X6, X8, X8
	VADDSD X8, X1, X1
	INCQ AX
over:
	CMPQ AX, DX
	JLT close
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
	CMPQ AX, DX
	JEQ combined
	ADDQ $4, AX
	CMPQ AX, DX
	JLE combine
	MOVQ DX, AX
	JMP combine
combined:
	VZEROUPPER
	RET

// func combineLastFour(stage, sum, u0, u1, u2, u3, u4 *float64, n int, c *[5]float64)
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
	SUBQ $4, DX
	JMP fours
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
fours:
	CMPQ AX, DX
	JLE last
	ADDQ $4, DX
	JMP ones
single:
	VMOVSD (BX)(AX*8), X4
	VADDSD (DI)(AX*8), X4, X5
	VMOVSD X5, (DI)(AX*8)
	VMULSD (R8)(AX*8), X11, X0
	VMULSD (R9)(AX*8), X12, X1
	VADDSD X1, X0, X0
	VMULSD (R10)(AX*8), X13, X2
	VMULSD (R11)(AX*8), X14, X3
	VADDSD X3, X2, X2
	VADDSD X2, X0, X0
	VMULSD X4, X15, X4
	VADDSD X4, X0, X0
	VMOVSD X0, (SI)(AX*8)
	INCQ AX
ones:
	CMPQ AX, DX
	JLT single
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
	CMPQ AX, DX
	JEQ gathered
	ADDQ $4, AX
	CMPQ AX, DX
	JLE gather
	MOVQ DX, AX
	JMP gather
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
