#include "textflag.h"
#include "four_amd64.h"

// Numbers that stand four times side by side.
#define FOUR(name, value) \
	DATA name<>+0(SB)/8, value \
	DATA name<>+8(SB)/8, value \
	DATA name<>+16(SB)/8, value \
	DATA name<>+24(SB)/8, value \
	GLOBL name<>(SB), RODATA|NOPTR, $32

FOUR(magnitude, $0x7fffffffffffffff)
FOUR(reach, $700.0)
FOUR(scale, $0x40671547652b82fe)   // 128/ln 2
FOUR(round, $0x4338000000000000)   // 3 2^51
FOUR(width, $0x3f762e42fefa39ef)   // ln(2)/128
FOUR(third, $0x3fc5555555555555)   // 1/6
FOUR(half, $0.5)
FOUR(one, $1.0)
FOUR(index, $127)
FOUR(bias, $1023)
FOUR(over, $-30.0)
FOUR(five, $5.0)
FOUR(one3rd, $0x3fd5555555555555)  // 1/3

// What the exponential is made of, in Y7 to Y11.
#define SERIES \
	VMOVUPD scale<>(SB), Y11      \
	VMOVUPD round<>(SB), Y10      \
	VMOVUPD width<>(SB), Y9       \
	VMOVUPD third<>(SB), Y8       \
	VMOVUPD half<>(SB), Y7

// The exponential of x in Y0 in two parts: 2^(n/128) in Y0, that times exp(f) - 1 in Y4; Y1 to Y5 are worked in, R8 is the table.
#define PARTS \
	VMULPD Y11, Y0, Y2            \
	VADDPD Y10, Y2, Y2            \
	VSUBPD Y10, Y2, Y3            \
	VMULPD Y9, Y3, Y3             \
	VSUBPD Y3, Y0, Y3             \
	VMULPD Y8, Y3, Y4             \
	VADDPD Y7, Y4, Y4             \
	VMULPD Y3, Y3, Y5             \
	VMULPD Y4, Y5, Y4             \
	VADDPD Y4, Y3, Y4             \
	VPAND index<>(SB), Y2, Y1     \
	VPCMPEQD Y5, Y5, Y5           \
	VGATHERQPD Y5, (R8)(Y1*8), Y0 \
	VPSRLQ $7, Y2, Y2             \
	VPADDQ bias<>(SB), Y2, Y2     \
	VPSLLQ $52, Y2, Y2            \
	VMULPD Y2, Y0, Y0             \
	VMULPD Y4, Y0, Y4

// The same in Y0 alone.
#define EXPONENTIAL \
	PARTS                         \
	VADDPD Y4, Y0, Y0

// On to beyond where one of four x in Y0 is not within reach, in Y12; Y13 is the mask of the magnitude.
#define WITHIN \
	VANDPD Y13, Y0, Y1            \
	VCMPPD $0x11, Y12, Y1, Y1     \
	VMOVMSKPD Y1, R9              \
	CMPL R9, $15                  \
	JNE beyond

// func exponentialsFour(value, slope, c *float64, n int, b, perB float64, powers *[128]float64) (ok bool)
// n is 4 or more; the last four may be taken twice.
TEXT ·exponentialsFour(SB), NOSPLIT, $0-57
	MOVQ value+0(FP), DI
	MOVQ slope+8(FP), SI
	MOVQ c+16(FP), BX
	MOVQ n+24(FP), DX
	VBROADCASTSD b+32(FP), Y15
	VBROADCASTSD perB+40(FP), Y14
	MOVQ powers+48(FP), R8
	VMOVUPD magnitude<>(SB), Y13
	VMOVUPD reach<>(SB), Y12
	SERIES
	VMOVUPD one<>(SB), Y6
	XORQ AX, AX
	SUBQ $4, DX
exponential:
	VMULPD (BX)(AX*8), Y15, Y0            // x = b c
	WITHIN
	PARTS
	VADDPD Y4, Y0, Y5
	VMOVUPD Y5, (SI)(AX*8)
	VSUBPD Y6, Y0, Y0
	VADDPD Y4, Y0, Y0
	VMULPD Y14, Y0, Y0
	VMOVUPD Y0, (DI)(AX*8)
	AGAIN(exponential, all)
all:
	MOVB $1, ok+56(FP)
	VZEROUPPER
	RET
beyond:
	MOVB $0, ok+56(FP)
	VZEROUPPER
	RET

// func activatedFour(out, excess *float64, n int, law *Law, powers *[128]float64) (ok bool)
// n is 4 or more; the last four may be taken twice.
TEXT ·activatedFour(SB), NOSPLIT, $0-41
	MOVQ out+0(FP), DI
	MOVQ excess+8(FP), BX
	MOVQ n+16(FP), DX
	MOVQ law+24(FP), SI
	MOVQ powers+32(FP), R8
	VBROADCASTSD 0(SI), Y15               // at
	VBROADCASTSD 24(SI), Y14              // steepness
	VBROADCASTSD 32(SI), Y6               // factor
	VMOVUPD magnitude<>(SB), Y13
	VMOVUPD reach<>(SB), Y12
	SERIES
	XORQ AX, AX
	SUBQ $4, DX
activated:
	VMOVUPD (BX)(AX*8), Y0
	VADDPD Y0, Y15, Y2                    // T
	VBROADCASTSD 8(SI), Y3
	VCMPPD $0x1d, Y3, Y2, Y3              // from there on
	VBROADCASTSD 16(SI), Y4
	VCMPPD $0x11, Y4, Y2, Y4              // and below
	VANDPD Y4, Y3, Y3
	VMOVMSKPD Y3, R9
	CMPL R9, $15
	JNE beyond
	VMULPD Y0, Y14, Y0
	VDIVPD Y2, Y0, Y0
	WITHIN
	EXPONENTIAL
	VMULPD Y0, Y6, Y0
	VMOVUPD Y0, (DI)(AX*8)
	AGAIN(activated, all)
all:
	MOVB $1, ok+40(FP)
	VZEROUPPER
	RET
beyond:
	MOVB $0, ok+40(FP)
	VZEROUPPER
	RET

// Four amounts at a distance from the first, as they have decayed, also in out.
#define DECAY(at, out) \
	VMULPD at(BX), Y15, Y0        \
	VCMPPD $0x1e, Y12, Y0, Y13    \
	VANDPD Y13, Y0, Y0            \
	EXPONENTIAL                   \
	VMULPD at(DI), Y0, Y0         \
	VANDPD Y13, Y0, out           \
	VMOVUPD out, at(DI)

// func decayFour(amounts, rate *[8]float64, time float64, powers *[128]float64) (sum float64)
// What is beyond over, or no number, is taken at zero, lest its power of two overflow, and then left out.
TEXT ·decayFour(SB), NOSPLIT, $0-40
	MOVQ amounts+0(FP), DI
	MOVQ rate+8(FP), BX
	VBROADCASTSD time+16(FP), Y15
	MOVQ powers+24(FP), R8
	VXORPD Y14, Y14, Y14
	VSUBPD Y15, Y14, Y15
	VMOVUPD over<>(SB), Y12
	SERIES
	DECAY(0, Y6)
	DECAY(32, Y0)
	VADDPD Y0, Y6, Y0
	TOGETHER(Y0, X0, X2)
	VMOVSD X0, sum+32(FP)
	VZEROUPPER
	RET

// func maternFour(squares, weights *float64, n int, powers *[128]float64) (sum float64)
// n is a multiple of four, above zero.
TEXT ·maternFour(SB), NOSPLIT, $0-40
	MOVQ squares+0(FP), BX
	MOVQ weights+8(FP), SI
	MOVQ n+16(FP), DX
	MOVQ powers+24(FP), R8
	VXORPD Y14, Y14, Y14
	VXORPD Y15, Y15, Y15
	VMOVUPD reach<>(SB), Y12
	SERIES
	XORQ AX, AX
covariance:
	VMOVUPD five<>(SB), Y6
	VMULPD (BX)(AX*8), Y6, Y6             // five times the square
	VSQRTPD Y6, Y0                        // d
	VCMPPD $0x11, Y12, Y0, Y13            // within reach, false for NaN
	VMULPD one3rd<>(SB), Y6, Y6
	VADDPD one<>(SB), Y0, Y1
	VADDPD Y6, Y1, Y6
	VANDPD Y13, Y0, Y0
	VSUBPD Y0, Y14, Y0
	EXPONENTIAL
	VMULPD Y0, Y6, Y0
	VANDPD Y13, Y0, Y0
	VMULPD (SI)(AX*8), Y0, Y0
	VADDPD Y0, Y15, Y15
	ADDQ $4, AX
	CMPQ AX, DX
	JLT covariance
	TOGETHER(Y15, X15, X2)
	VMOVSD X15, sum+32(FP)
	VZEROUPPER
	RET
