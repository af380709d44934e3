#include "textflag.h"

// out = the matrix of four rows at m, times v; t0 to t3 are worked in, and out may be t1.
#define TIMES(m, v, t0, t1, t2, t3, out) \
	VMULPD 0(m), v, t0                \
	VMULPD 32(m), v, t1               \
	VMULPD 64(m), v, t2               \
	VMULPD 96(m), v, t3               \
	VHADDPD t1, t0, t0                \
	VHADDPD t3, t2, t2                \
	VPERM2F128 $0x20, t2, t0, t1      \
	VPERM2F128 $0x31, t2, t0, t3      \
	VADDPD t3, t1, out

// In Y8, Y0 to Y7 times four rows of the columns of the matrix at R8, which begin at the distances told; Y9 to Y11 are worked in.
#define COLUMNS(a, b, c, d, e, f, g, h) \
	VMULPD a(R8), Y0, Y8      \
	VMULPD b(R8), Y1, Y9      \
	VADDPD Y9, Y8, Y8         \
	VMULPD c(R8), Y2, Y10     \
	VMULPD d(R8), Y3, Y11     \
	VADDPD Y11, Y10, Y10      \
	VADDPD Y10, Y8, Y8        \
	VMULPD e(R8), Y4, Y9      \
	VMULPD f(R8), Y5, Y11     \
	VADDPD Y11, Y9, Y9        \
	VMULPD g(R8), Y6, Y10     \
	VMULPD h(R8), Y7, Y11     \
	VADDPD Y11, Y10, Y10      \
	VADDPD Y10, Y9, Y9        \
	VADDPD Y9, Y8, Y8

// func flowFour(f, k, field, q *float64, gaps int)
// The matrix of a gap is symmetric, so that its columns are its rows.
TEXT ·flowFour(SB), NOSPLIT, $0-40
	MOVQ f+0(FP), DI
	MOVQ k+8(FP), SI
	MOVQ field+16(FP), BX
	MOVQ q+24(FP), R8
	MOVQ gaps+32(FP), CX
	VXORPD Y15, Y15, Y15              // what the outer circle of the gap before has got
gap:
	VBROADCASTSD (SI), Y14
	VBROADCASTSD 0(BX), Y0
	VBROADCASTSD 8(BX), Y1
	VBROADCASTSD 16(BX), Y2
	VBROADCASTSD 24(BX), Y3
	VBROADCASTSD 32(BX), Y4
	VBROADCASTSD 40(BX), Y5
	VBROADCASTSD 48(BX), Y6
	VBROADCASTSD 56(BX), Y7
	VMULPD Y14, Y0, Y0
	VMULPD Y14, Y1, Y1
	VMULPD Y14, Y2, Y2
	VMULPD Y14, Y3, Y3
	VMULPD Y14, Y4, Y4
	VMULPD Y14, Y5, Y5
	VMULPD Y14, Y6, Y6
	VMULPD Y14, Y7, Y7
	COLUMNS(0, 64, 128, 192, 256, 320, 384, 448)
	VADDPD Y8, Y15, Y8
	VMOVUPD Y8, (DI)
	COLUMNS(32, 96, 160, 224, 288, 352, 416, 480)
	VMOVAPD Y8, Y15
	ADDQ $8, SI
	ADDQ $32, BX
	ADDQ $32, DI
	ADDQ $512, R8
	DECQ CX
	JNZ gap
	VMOVUPD Y15, (DI)
	VZEROUPPER
	RET

// func massFour(out, f, v, lower, diag, upper *float64, circles int, share *[4]float64)
// circles 1 to circles-2.
TEXT ·massFour(SB), NOSPLIT, $0-64
	MOVQ out+0(FP), DI
	MOVQ f+8(FP), SI
	MOVQ v+16(FP), BX
	MOVQ lower+24(FP), R8
	MOVQ diag+32(FP), R9
	MOVQ upper+40(FP), R10
	MOVQ circles+48(FP), CX
	MOVQ share+56(FP), R11
	VMOVUPD (R11), Y15
	VMOVUPD 0(BX), Y0                 // the circle before
	VMOVUPD 32(BX), Y1                // this one
	MOVQ $1, AX
	SUBQ $2, CX
mass:
	ADDQ $32, DI
	ADDQ $32, SI
	ADDQ $32, BX
	VMOVUPD 32(BX), Y2                // the one after
	VBROADCASTSD (R8)(AX*8), Y3
	VBROADCASTSD (R9)(AX*8), Y4
	VBROADCASTSD (R10)(AX*8), Y5
	VMULPD Y0, Y3, Y3
	VMULPD Y1, Y4, Y4
	VADDPD Y4, Y3, Y3
	VMULPD Y2, Y5, Y5
	VADDPD Y5, Y3, Y3
	VMULPD Y15, Y3, Y3
	VADDPD (SI), Y3, Y3
	VMOVUPD Y3, (DI)
	VMOVAPD Y1, Y0
	VMOVAPD Y2, Y1
	INCQ AX
	CMPQ AX, CX
	JLE mass
	VZEROUPPER
	RET

// func joinFour(own, above, below, next *[16]float64, q *[64]float64, k float64, inner, outer *[4]float64)
TEXT ·joinFour(SB), NOSPLIT, $0-64
	MOVQ own+0(FP), DI
	MOVQ above+8(FP), SI
	MOVQ below+16(FP), R8
	MOVQ next+24(FP), R9
	MOVQ q+32(FP), BX
	VBROADCASTSD k+40(FP), Y0
	MOVQ inner+48(FP), R10
	MOVQ outer+56(FP), R11
	VMULPD (R10), Y0, Y1              // k times the slope on the inner circle
	VMULPD (R11), Y0, Y2              // and on the outer one
	VXORPD Y3, Y3, Y3
	MOVQ $4, CX
join:
	VMULPD 0(BX), Y1, Y4
	VMOVUPD (DI), Y5
	VSUBPD Y4, Y5, Y5
	VMOVUPD Y5, (DI)
	VMULPD 32(BX), Y2, Y6
	VSUBPD Y6, Y3, Y6
	VMOVUPD Y6, (SI)
	VMULPD 256(BX), Y1, Y7
	VSUBPD Y7, Y3, Y7
	VMOVUPD Y7, (R8)
	VMULPD 288(BX), Y2, Y8
	VMOVUPD (R9), Y9
	VSUBPD Y8, Y9, Y9
	VMOVUPD Y9, (R9)
	ADDQ $64, BX
	ADDQ $32, DI
	ADDQ $32, SI
	ADDQ $32, R8
	ADDQ $32, R9
	DECQ CX
	JNZ join
	VZEROUPPER
	RET

// A row of a product: the row at a times the matrix in Y12 to Y15.
#define ROW(a, t0, t1, t2, t3) \
	VBROADCASTSD 0+a, t0      \
	VBROADCASTSD 8+a, t1      \
	VBROADCASTSD 16+a, t2     \
	VBROADCASTSD 24+a, t3     \
	VMULPD Y12, t0, t0        \
	VMULPD Y13, t1, t1        \
	VADDPD t1, t0, t0         \
	VMULPD Y14, t2, t2        \
	VMULPD Y15, t3, t3        \
	VADDPD t3, t2, t2         \
	VADDPD t2, t0, t0

// func carryFour(to, inverse, back, on *[16]float64)
// back becomes inverse times back, and on loses to times that.
TEXT ·carryFour(SB), NOSPLIT, $0-32
	MOVQ to+0(FP), SI
	MOVQ inverse+8(FP), BX
	MOVQ back+16(FP), R8
	MOVQ on+24(FP), DI
	VMOVUPD 0(R8), Y12
	VMOVUPD 32(R8), Y13
	VMOVUPD 64(R8), Y14
	VMOVUPD 96(R8), Y15
	ROW(0(BX), Y0, Y4, Y5, Y6)
	ROW(32(BX), Y1, Y7, Y8, Y9)
	ROW(64(BX), Y2, Y4, Y5, Y6)
	ROW(96(BX), Y3, Y7, Y8, Y9)
	VMOVUPD Y0, 0(R8)
	VMOVUPD Y1, 32(R8)
	VMOVUPD Y2, 64(R8)
	VMOVUPD Y3, 96(R8)
	VMOVAPD Y0, Y12
	VMOVAPD Y1, Y13
	VMOVAPD Y2, Y14
	VMOVAPD Y3, Y15
	ROW(0(SI), Y0, Y4, Y5, Y6)
	ROW(32(SI), Y1, Y7, Y8, Y9)
	ROW(64(SI), Y2, Y4, Y5, Y6)
	ROW(96(SI), Y3, Y7, Y8, Y9)
	VMOVUPD 0(DI), Y4
	VMOVUPD 32(DI), Y5
	VMOVUPD 64(DI), Y6
	VMOVUPD 96(DI), Y7
	VSUBPD Y0, Y4, Y4
	VSUBPD Y1, Y5, Y5
	VSUBPD Y2, Y6, Y6
	VSUBPD Y3, Y7, Y7
	VMOVUPD Y4, 0(DI)
	VMOVUPD Y5, 32(DI)
	VMOVUPD Y6, 64(DI)
	VMOVUPD Y7, 96(DI)
	VZEROUPPER
	RET

// Gauss and Jordan's step: the row is divided by its element on the diagonal, which the permutation spreads and the blend replaces, and taken from the others.
#define STEP(spread, lane, row, a, b, c) \
	VPERMPD $spread, row, Y4          \
	VDIVPD Y4, Y15, Y4                \
	VANDPD Y13, Y4, Y5                \
	VCMPPD $0x11, Y12, Y5, Y6         \
	VANDPD Y6, Y11, Y11               \
	VCMPPD $0x1e, Y14, Y5, Y6         \
	VANDPD Y6, Y11, Y11               \
	VBLENDPD $lane, Y15, row, row     \
	VMULPD Y4, row, row               \
	VPERMPD $spread, a, Y5            \
	VPERMPD $spread, b, Y6            \
	VPERMPD $spread, c, Y7            \
	VBLENDPD $lane, Y14, a, a         \
	VBLENDPD $lane, Y14, b, b         \
	VBLENDPD $lane, Y14, c, c         \
	VMULPD row, Y5, Y5                \
	VMULPD row, Y6, Y6                \
	VMULPD row, Y7, Y7                \
	VSUBPD Y5, a, a                   \
	VSUBPD Y6, b, b                   \
	VSUBPD Y7, c, c

DATA unit<>+0(SB)/8, $1.0
GLOBL unit<>(SB), RODATA|NOPTR, $8
DATA infinite<>+0(SB)/8, $0x7ff0000000000000
GLOBL infinite<>(SB), RODATA|NOPTR, $8
DATA unsigned<>+0(SB)/8, $0x7fffffffffffffff
GLOBL unsigned<>(SB), RODATA|NOPTR, $8

// func invertFour(a *[16]float64) (sound bool)
TEXT ·invertFour(SB), NOSPLIT, $0-9
	MOVQ a+0(FP), DI
	VBROADCASTSD unit<>(SB), Y15
	VXORPD Y14, Y14, Y14
	VBROADCASTSD unsigned<>(SB), Y13
	VBROADCASTSD infinite<>(SB), Y12
	VPCMPEQD Y11, Y11, Y11            // pivots sound so far
	VMOVUPD 0(DI), Y0
	VMOVUPD 32(DI), Y1
	VMOVUPD 64(DI), Y2
	VMOVUPD 96(DI), Y3
	STEP(0x00, 1, Y0, Y1, Y2, Y3)
	STEP(0x55, 2, Y1, Y0, Y2, Y3)
	STEP(0xaa, 4, Y2, Y0, Y1, Y3)
	STEP(0xff, 8, Y3, Y0, Y1, Y2)
	VMOVUPD Y0, 0(DI)
	VMOVUPD Y1, 32(DI)
	VMOVUPD Y2, 64(DI)
	VMOVUPD Y3, 96(DI)
	VMOVMSKPD Y11, AX
	CMPL AX, $15
	SETEQ sound+8(FP)
	VZEROUPPER
	RET

// From above, the next part towards the middle.
#define INWARDS \
	SUBQ $32, BX \
	SUBQ $128, R11 \
	SUBQ $128, R12 \
	SUBQ $128, R13 \
	TIMES(R13, Y1, Y6, Y7, Y8, Y9, Y7) \
	VMOVUPD (BX), Y1 \
	VSUBPD Y7, Y1, Y1 \
	TIMES(R12, Y1, Y6, Y7, Y8, Y9, Y1) \
	VMOVUPD Y1, (BX)

// And the next one back out.
#define OUTWARDS \
	TIMES(R11, Y1, Y6, Y7, Y8, Y9, Y7) \
	VMOVUPD (BX), Y1 \
	VSUBPD Y7, Y1, Y1 \
	VMOVUPD Y1, (BX) \
	ADDQ $32, BX

// func solveFour(x, below, on, above *float64, farBack *[16]float64, rows int)
// Y0 and Y1 are the parts last found from below and from above; SI, R8, R9 and R10 stand at x, below, on and the above of the one,
// BX, R11, R12 and R13 at those of the other.
TEXT ·solveFour(SB), NOSPLIT, $0-48
	MOVQ x+0(FP), SI
	MOVQ below+8(FP), R8
	MOVQ on+16(FP), R9
	MOVQ above+24(FP), R10
	MOVQ rows+40(FP), CX
	DECQ CX                           // last
	MOVQ CX, DX
	SHRQ $1, DX                       // mid
	MOVQ CX, AX
	SHLQ $5, AX
	LEAQ (SI)(AX*1), BX
	SHLQ $2, AX
	LEAQ (R8)(AX*1), R11
	LEAQ (R9)(AX*1), R12
	LEAQ (R10)(AX*1), R13
	VMOVUPD (SI), Y0
	TIMES(R9, Y0, Y2, Y3, Y4, Y5, Y0)
	VMOVUPD Y0, (SI)
	VMOVUPD (BX), Y1
	TIMES(R12, Y1, Y6, Y7, Y8, Y9, Y1)
	VMOVUPD Y1, (BX)
	MOVQ DX, AX
	DECQ AX                           // rows between the first and mid
	SUBQ DX, CX
	DECQ CX                           // and between mid and the last: as many, or one more
	MOVQ CX, DI
	SUBQ AX, DI                       // 0 or 1
	MOVQ AX, DX
	JMP forth
both:
	ADDQ $32, SI
	ADDQ $128, R8
	ADDQ $128, R9
	ADDQ $128, R10
	TIMES(R8, Y0, Y2, Y3, Y4, Y5, Y3)
	VMOVUPD (SI), Y0
	VSUBPD Y3, Y0, Y0
	TIMES(R9, Y0, Y2, Y3, Y4, Y5, Y0)
	VMOVUPD Y0, (SI)
	INWARDS
	DECQ AX
forth:
	TESTQ AX, AX
	JNZ both
	TESTQ DI, DI
	JZ middle
	INWARDS
middle:
	ADDQ $128, R8
	ADDQ $128, R9
	ADDQ $128, R10
	TIMES(R8, Y0, Y2, Y3, Y4, Y5, Y3)
	TIMES(R10, Y1, Y6, Y7, Y8, Y9, Y7)
	VMOVUPD 32(SI), Y0
	VSUBPD Y3, Y0, Y0
	VSUBPD Y7, Y0, Y0
	TIMES(R9, Y0, Y2, Y3, Y4, Y5, Y0)
	VMOVUPD Y0, 32(SI)
	VMOVAPD Y0, Y1
	SUBQ $128, R10                    // above of the row before mid
	MOVQ DX, AX
	INCQ AX                           // rows before mid, the first included
back:
	TIMES(R10, Y0, Y2, Y3, Y4, Y5, Y3)
	VMOVUPD (SI), Y0
	VSUBPD Y3, Y0, Y0
	VMOVUPD Y0, (SI)
	SUBQ $32, SI
	SUBQ $128, R10
	OUTWARDS
	ADDQ $128, R11
	DECQ AX
	JNZ back
	TESTQ DI, DI
	JZ further
	OUTWARDS
further:
	MOVQ farBack+32(FP), R9
	VMOVUPD -96(BX), Y2
	TIMES(R9, Y2, Y3, Y4, Y5, Y6, Y4)
	VMOVUPD -32(BX), Y1
	VSUBPD Y4, Y1, Y1
	VMOVUPD Y1, -32(BX)
	VZEROUPPER
	RET
