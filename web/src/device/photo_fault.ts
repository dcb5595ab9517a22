/** Why a picture was not taken in. */

export type PhotoFaultCode = 'not_an_image' | 'unreadable' | 'too_large'

export class PhotoFault extends Error {
  readonly code: PhotoFaultCode

  constructor(code: PhotoFaultCode, message: string, options?: ErrorOptions) {
    super(message, options)
    this.name = 'PhotoFault'
    this.code = code
  }
}
